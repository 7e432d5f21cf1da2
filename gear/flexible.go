package gear

import "ringtrack/gear/plane"

// Flexible is what a member's teeth are changed by because they bend: backlash
// that yielding flanks make up for is given back to the teeth, and tips that
// would meet the next tooth too early are taken back. The change comes after the
// thinning and before the making.
type Flexible struct {
	Thicker      float64    // mm of arc on the reference circle: teeth thicker, spaces narrower
	Relief       float64    // mm taken off the flank along its normal, at the tip
	Length       float64    // mm along the line of action over which the relief fades out
	From         float64    // mm, radius at which the relief begins; 0 without one
	TipThickness float64    // mm, arc on the tip circle, as it comes out
	Outline      plane.Loop // toothed outline as it comes out
}
