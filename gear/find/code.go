package find

// Code names a kind of finding. The list is closed: scripts may rely on it.
type Code string

// The codes. Codes about the job file come last.
const (
	Undercut              Code = "undercut"
	PointedTip            Code = "pointed-tip"
	ThinTip               Code = "thin-tip"
	RingTipInterference   Code = "ring-tip-interference"
	PinionTipInterference Code = "pinion-tip-interference"
	TipOnTip              Code = "tip-on-tip"
	RadialAssembly        Code = "radial-assembly"
	LowContactRatio       Code = "low-contact-ratio"
	Jams                  Code = "jams"
	LittleBacklash        Code = "little-backlash"
	MuchPlay              Code = "much-play"
	SmallTipClearance     Code = "small-tip-clearance"
	NarrowGap             Code = "narrow-gap"
	ThinRim               Code = "thin-rim"
	BoreTooLarge          Code = "bore-too-large"
	HoleMeetsTeeth        Code = "hole-meets-teeth"
	HoleOutsideRim        Code = "hole-outside-rim"
	OutsideBed            Code = "outside-bed"
	OutlineLost           Code = "outline-lost"
	RackWithoutLand       Code = "rack-without-land"
	Unmeasured            Code = "unmeasured"
	Guessed               Code = "guessed"
	ToleranceTooFine      Code = "tolerance-too-fine"
	UnknownKey            Code = "unknown-key"
	NotYet                Code = "not-yet"
	WrongUnit             Code = "wrong-unit"
	OutOfRange            Code = "out-of-range"
	MissingKey            Code = "missing-key"
	Contradicts           Code = "contradicts"
	NotReadable           Code = "not-readable"
)

// Meaning says in one line what each code stands for, in the order of the list.
var Meaning = []struct {
	Code Code
	Text string
}{
	{Undercut, "the rack cuts away part of the pinion's flank near its root"},
	{PointedTip, "the tooth comes to a point below its tip circle"},
	{ThinTip, "the tooth's tip is narrower than can be made well"},
	{RingTipInterference, "the ring's tip runs into the pinion's root"},
	{PinionTipInterference, "the pinion's tip runs into the ring's root corner"},
	{TipOnTip, "tips collide where the tip circles cross"},
	{RadialAssembly, "the pinion cannot be pushed in toward the ring; it must slide in along its axis"},
	{LowContactRatio, "too short a stretch of true contact from tooth to tooth"},
	{Jams, "the teeth overlap at the given centre distance"},
	{LittleBacklash, "the backlash is used up within the spread of the centre distance"},
	{MuchPlay, "shifts and centre distance alone give more play than asked for"},
	{SmallTipClearance, "a tip comes too near the mate's root"},
	{NarrowGap, "a gap or corner is too narrow for the printer or cutter"},
	{ThinRim, "too little material behind the teeth"},
	{BoreTooLarge, "the bore leaves too little wall under the teeth, or none"},
	{HoleMeetsTeeth, "a screw hole comes too near the teeth"},
	{HoleOutsideRim, "a screw hole comes too near the rim's outer edge"},
	{OutsideBed, "the part does not fit the printer's bed"},
	{OutlineLost, "no valid outline remains"},
	{RackWithoutLand, "the basic rack comes to a point above its root line"},
	{Unmeasured, "a default stands where a measurement of your own would be better"},
	{Guessed, "a value is a guess that decides the result"},
	{ToleranceTooFine, "the tolerance is finer than the file format can hold"},
	{UnknownKey, "the job file has a key that does not exist"},
	{NotYet, "a key that this version does not read yet"},
	{WrongUnit, "a value in a unit, or of a kind, that the key does not take"},
	{OutOfRange, "a value outside what the key allows"},
	{MissingKey, "a key that the job needs is missing"},
	{Contradicts, "keys that do not go together"},
	{NotReadable, "the file cannot be read as a job file"},
}
