package drive

import "ringtrack/gear/job"

// LeastWall returns the least material, in mm, that a way of making leaves
// between two contours.
func LeastWall(m job.Making) float64 { return limits(m).Wall }
