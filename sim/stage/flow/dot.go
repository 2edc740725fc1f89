// Package flow is the language that the stages of the machine share: the dots,
// the swarms that hold them, the chances they meet, and the counts that are
// kept of them.
package flow

// Kind is the material that a dot is made of.
type Kind uint8

const (
	Sound  Kind = iota // sound kernel
	Light              // light or shrunken kernel
	Broken             // visibly damaged kernel, or a part of one
	Piece              // unthreshed head, pod or ear piece that holds kernels
	Chaff              // chaff, husk, empty pod
	Short              // short straw, stem bit, cob bit
	Straw              // long straw, stem, whole cob
	Weed               // green weed
	Kinds              // how many kinds there are
)

var kindNames = [Kinds]string{"sound kernel", "light kernel", "broken kernel", "unthreshed piece", "chaff", "short straw", "long straw", "weed"}

// String returns the name of the kind in words.
func (k Kind) String() string { return kindNames[k] }

// IsKernel reports whether the kind is a loose kernel or a part of one.
func (k Kind) IsKernel() bool { return k <= Broken }

// IsMOG reports whether the kind is material other than grain.
func (k Kind) IsMOG() bool { return k >= Chaff }

// Ride is how a dot travels at its place.
type Ride uint8

const (
	Carried  Ride = iota // on a belt, chain, pan or auger
	InMat                // held in a mat at height H of its thickness
	OnSieve              // at the sieve's face, about to be thrown
	Airborne             // in free flight
	AtRest               // lying on the ground
)

// Cause is the way in which grain was lost. The order is that of the crop.
type Cause uint8

const (
	NotLost    Cause = iota
	Header           // shattered, dropped or missed at the header
	Unthreshed       // in a piece that left over walkers or shoe
	Walker           // free grain off the rear of the walkers
	Blown            // free grain off the rear of the shoe, in the air
	Ridden           // free grain off the rear of the shoe, in or under the mat
	Causes           // how many there are
)

var causeNames = [Causes]string{"", "header", "unthreshed", "walker", "shoe, blown over", "shoe, ridden over"}

// String returns the name of the cause in words.
func (c Cause) String() string { return causeNames[c] }

// Kernel is the number of equal parts into which a kernel's mass is counted, so
// that the parts of a broken kernel, down to a grain of dust, sum exactly. Chosen.
const Kernel = 64

// Dot is one kernel, one unthreshed piece, or a stated number of pieces of
// chaff or straw. Its place is where it is drawn.
type Dot struct {
	X, Y    float32 // place in the side section, m
	VX, VY  float32 // speed, m/s
	Vt      float32 // terminal velocity in still air, m/s; of MOG in its present attitude
	Size    float32 // limiting dimension, mm; of straw its length, mm
	S       float32 // distance along the present path, m, or time since the last throw, s
	H       float32 // height in the mat as a share of its thickness, 0 to 1
	Mass    uint32  // MOG carried, µg
	ID      uint32  // its number, unique within a run
	From    uint32  // number of the piece or kernel that it came out of; 0 if it grew so
	Grain   uint16  // grain carried, parts of a kernel (Kernel of them are one)
	Kind    Kind
	Ride    Ride
	Lane    uint8 // which of the four straw walkers, 0 to 3
	Rounds  uint8 // times it went through the returns
	Strikes uint8 // rasp bar strikes taken
	Cause   Cause // how it was lost
	Husks   uint8 // chaff dots that the piece still carries
	Heads   uint8 // kernels that the piece held when it was cut
}

// Kernels returns how many whole kernels the dot holds.
func (d *Dot) Kernels() int { return int(d.Grain) / Kernel }
