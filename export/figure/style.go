package figure

// Colour of a line or an area; A 0 is no colour, 255 is opaque.
type Colour struct{ R, G, B, A uint8 }

// The colours of paper and of ordinary lines and words.
var (
	white = Colour{255, 255, 255, 255}
	ink   = Colour{0x20, 0x20, 0x20, 255}
)

// Style is how a shape is drawn.
type Style struct {
	Stroke Colour
	Width  float64   // mm, of the stroke
	Dash   []float64 // mm, stroke and gap in turn; none is a full line
	Fill   Colour
}

// Role is what a shape stands for; it decides its look.
type Role uint8

const (
	Pinion Role = iota
	Ring
	Plate
	ReferenceCircle
	WorkingCircle
	BaseCircle
	TipCircle
	RootCircle
	LineOfAction
	CentreLine
	Dimension
	Note
	Contact
	Hatching
	roles // their number
)

// Look returns the style of a role. Roles differ in more than hue: lines in
// dash or weight, areas in lightness, so that a figure can be read in grey and
// by those who see colours otherwise. Dashes follow ISO 128-2: long chain for
// circles that are imagined, dashes for what is hidden behind the teeth.
func Look(r Role) Style {
	switch r {
	case Pinion:
		return Style{Stroke: Colour{0x12, 0x46, 0x7b, 255}, Width: 0.5, Fill: Colour{0xc9, 0xdc, 0xee, 255}}
	case Ring:
		return Style{Stroke: Colour{0x8a, 0x3b, 0x00, 255}, Width: 0.5, Fill: Colour{0xfb, 0xee, 0xe0, 255}}
	case Plate:
		return Style{Stroke: Colour{0x4a, 0x4a, 0x4a, 255}, Width: 0.35, Fill: Colour{0xee, 0xee, 0xee, 255}}
	case ReferenceCircle:
		return Style{Stroke: Colour{0x33, 0x33, 0x33, 255}, Width: 0.25, Dash: []float64{8, 1.5, 1, 1.5}}
	case WorkingCircle:
		return Style{Stroke: Colour{0x33, 0x33, 0x33, 255}, Width: 0.4, Dash: []float64{8, 1.5, 1, 1.5, 1, 1.5}}
	case BaseCircle:
		return Style{Stroke: Colour{0x00, 0x69, 0x5c, 255}, Width: 0.3, Dash: []float64{3, 1.5}}
	case TipCircle:
		return Style{Stroke: Colour{0x5a, 0x2d, 0x82, 255}, Width: 0.3, Dash: []float64{0.9, 1.1}}
	case RootCircle:
		return Style{Stroke: Colour{0x5e, 0x5e, 0x5e, 255}, Width: 0.18}
	case LineOfAction:
		return Style{Stroke: Colour{0xb0, 0x00, 0x5a, 255}, Width: 0.7}
	case CentreLine:
		return Style{Stroke: Colour{0x5e, 0x5e, 0x5e, 255}, Width: 0.18, Dash: []float64{12, 1.5, 1, 1.5}}
	case Contact:
		return Style{Stroke: Colour{0xc6, 0x1a, 0x1a, 255}, Width: 1}
	case Hatching:
		return Style{Stroke: Colour{0x6e, 0x6e, 0x6e, 255}, Width: 0.13}
	}
	return Style{Stroke: ink, Width: 0.2} // Dimension, Note
}

// Roles returns every role.
func Roles() []Role {
	out := make([]Role, roles)
	for i := range out {
		out[i] = Role(i)
	}
	return out
}
