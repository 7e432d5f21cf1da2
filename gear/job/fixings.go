package job

// What holds the parts: bore, hub, set screws, flange, step and screw holes.
// Lengths are mm, angles radians.

// Bore is the hole for the shaft.
type Bore struct {
	Shape      string  // round, d, double-d, hexagon, keyed, coupling
	Diameter   float64 // of the shaft; coupling: of what stands in the middle; 0 for a hexagon
	AcrossFlat float64 // of the shaft: d, double-d, hexagon; else 0
	Clearance  float64 // in total, on all measures: half of it per side
	FlatAngle  float64 // direction in which the flat or the key faces
	Depth      float64 // from the face opposite the hub; 0: through

	KeyWidth, KeyHeight float64 // of the key; 0 unless keyed
	KeyDepth            float64 // how deep the key lies in the shaft, t1
	KeyHub              float64 // depth of the keyway in the hub, t2, from the bore's rim
	KeySource           string  // where they come from when not all given, else empty

	Coupling *Coupling // nil unless coupling
}

// Coupling is the pattern of a bought flange coupling.
type Coupling struct {
	Count  int
	Circle float64 // diameter
	Angle  float64 // of the first screw
	Side   string  // above, below: the face that the coupling lies against
	Drill          // the heads lie in the other face
	Recess *Recess // nil for none
}

// Recess is a circle of round pockets for a coupling's own set screws, open to
// the coupling's side.
type Recess struct {
	Count    int
	Circle   float64 // diameter through the pockets' centres
	Diameter float64
	Depth    float64
	Angle    float64 // of the first one
}

// Drill is one screw hole with the room for its head.
type Drill struct {
	Screw        string  // name in stock, empty when the hole is given
	Hole         float64 // diameter
	Head         string  // none, countersunk, counterbored, pilot, slot
	HeadDiameter float64 // of counterbore or countersink in the face, else 0
	HeadDepth    float64 // of the counterbore, else 0
	HeadAngle    float64 // full angle of the countersink, else 0
}

// Bolts is a circle of screw holes.
type Bolts struct {
	Count      int
	Circle     Setting // diameter
	Angle      float64 // of the first hole
	Side       string  // above, below: the face in which the heads lie
	SlotLength float64 // a screw's way along the radius; 0 unless slot
	Drill
}

// Hub is a collar beside the pinion's teeth.
type Hub struct {
	Diameter, Length float64
	Side             string  // above, below the teeth
	Foot             float64 // radius of the fillet or width of the chamfer; 0 for none
	FootShape        string  // fillet, chamfer
}

// SetScrew is a screw across the hub against the shaft.
type SetScrew struct {
	Size   string  // name in stock
	Angle  float64 // from the middle of the flat, counter-clockwise seen from the hub
	Height Setting // of the axis above the pinion's lowest face
	Seat   string  // plain, tapped, hex-nut, square-nut, insert
	Length Setting
}

// Flange is a disc on one end of the pinion.
type Flange struct {
	Diameter  Setting
	Thickness float64
	Side      string // above, below the teeth
}

// Step centres the ring on the bearing.
type Step struct {
	Diameter  float64 // of the bearing's bore or rim
	Clearance float64 // in total: half of it per side
	Height    float64
	Side      string // above, below: the face that lies against the bearing
	Fits      string // bore: the step stands in it; rim: the step stands around it
}
