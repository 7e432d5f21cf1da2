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
	OutsideSheet          Code = "outside-sheet"
	TabsDoNotFit          Code = "tabs-do-not-fit"
	DowelMeetsEdge        Code = "dowel-meets-edge"
	ManyPages             Code = "many-pages"
	OutlineLost           Code = "outline-lost"
	RackWithoutLand       Code = "rack-without-land"
	HubMeetsTeeth         Code = "hub-meets-teeth"
	ThinWall              Code = "thin-wall"
	ChannelMeetsEdge      Code = "channel-meets-edge"
	ChannelsMeet          Code = "channels-meet"
	ScrewProud            Code = "screw-proud"
	ScrewShort            Code = "screw-short"
	FirstLayer            Code = "first-layer"
	Unmeasured            Code = "unmeasured"
	Guessed               Code = "guessed"
	ToleranceTooFine      Code = "tolerance-too-fine"
	ToothOverload         Code = "tooth-overload"
	ToothBends            Code = "tooth-bends"
	NarrowFace            Code = "narrow-face"
	TooWarm               Code = "too-warm"
	HubSlips              Code = "hub-slips"
	WillNotStart          Code = "will-not-start"
	LittleTorque          Code = "little-torque"
	GearboxOverload       Code = "gearbox-overload"
	ShaftOverload         Code = "shaft-overload"
	TipsOver              Code = "tips-over"
	StickSlip             Code = "stick-slip"
	StepsNotWhole         Code = "steps-not-whole"
	OffSpeed              Code = "off-speed"
	OtherDrive            Code = "other-drive"
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
	{OutsideSheet, "a part does not fit the sheet that it is cut from"},
	{TabsDoNotFit, "the part's outside has no place for its tabs"},
	{DowelMeetsEdge, "a dowel hole of layers leaves too little material"},
	{ManyPages, "the drill template takes more pages than can be joined true"},
	{OutlineLost, "no valid outline remains"},
	{HubMeetsTeeth, "the hub runs into the teeth, or does not pass the ring's opening"},
	{ThinWall, "too little material is left around a channel, a slot or a bore"},
	{ChannelMeetsEdge, "a set screw's channel runs into a fillet, a chamfer or the hub's end"},
	{ChannelsMeet, "two channels or slots run into each other"},
	{ScrewProud, "a set screw stands out of the hub"},
	{ScrewShort, "no set screw of that size reaches from its nut to the shaft without standing proud"},
	{FirstLayer, "the first layer's spread reaches past the edge's chamfer"},
	{RackWithoutLand, "the basic rack comes to a point above its root line"},
	{Unmeasured, "a default stands where a measurement of your own would be better"},
	{Guessed, "a value is a guess that decides the result"},
	{ToleranceTooFine, "the tolerance is finer than the file format can hold"},
	{ToothOverload, "a tooth is too weak for a load"},
	{ToothBends, "a tooth bends farther under a load than teeth may"},
	{NarrowFace, "a flexible pinion is too narrow for its load"},
	{TooWarm, "the material is too warm to hold its shape"},
	{HubSlips, "bore, flat and set screw do not hold the torque"},
	{WillNotStart, "the motor cannot set the platform moving"},
	{LittleTorque, "the motor has too little torque or speed in hand"},
	{GearboxOverload, "the motor can load its gearbox beyond the gearbox's limit"},
	{ShaftOverload, "the teeth push the motor's shaft aside harder than it may be"},
	{TipsOver, "the platform tips off its bearing"},
	{StickSlip, "the platform turns so slowly that it sticks and jumps"},
	{StepsNotWhole, "a turn of the platform is no whole number of steps"},
	{OffSpeed, "the platform turns at another speed than wanted"},
	{OtherDrive, "another kind of drive would serve better"},
	{UnknownKey, "the job file has a key that does not exist"},
	{NotYet, "a key that this version does not read yet"},
	{WrongUnit, "a value in a unit, or of a kind, that the key does not take"},
	{OutOfRange, "a value outside what the key allows"},
	{MissingKey, "a key that the job needs is missing"},
	{Contradicts, "keys that do not go together"},
	{NotReadable, "the file cannot be read as a job file"},
}
