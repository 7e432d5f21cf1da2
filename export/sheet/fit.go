package sheet

// Fit is a way in which what is asked for has no room.
type Fit int

// The ways.
const (
	SheetSize Fit = iota // a part is larger than the sheet
	Spacing              // the spacing of parts is narrower than the kerf
	TabPlace             // an outside has no place for its tabs
	DowelWall            // dowel holes leave too little material
	Pages                // a template takes more pages than are made
)

// FitError says what has no room, in the words of the workshop.
type FitError struct {
	Fit   Fit
	Part  string  // empty for templates
	Found float64 // mm; pages
	Limit float64 // what there is room for: at most, or of Spacing and DowelWall at least
	text  string
}

func (e *FitError) Error() string { return e.text }
