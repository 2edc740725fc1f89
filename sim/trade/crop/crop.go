// Package crop holds what is known about each crop, whatever machine takes it in:
// kernels, unthreshed pieces, the classes of material other than grain (MOG), how
// it stands and sheds, and the settings to start from.
//
// Every figure carries its mark: published, common practice, memory (from
// memory, unverified) or calibrated (chosen here so that the whole machine
// gives published or usual results); they are in data.go, by group.
package crop

// Class is a class of MOG: chaff and husks, or short straw and cob bits.
type Class struct {
	Vt     float64 // mean terminal velocity, m/s
	Spread float64 // standard deviation of Vt over the attitudes of a piece, m/s
	Mat    float64 // how much of its mass mats, 0 to 1.2
	Mass   float64 // of one piece, mg
	Pieces int     // real pieces that one dot stands for
}

// DotMass returns the mass of one dot of the class, µg.
func (c Class) DotMass() float64 { return c.Mass * float64(c.Pieces) * 1000 }

// Damage is how grain moisture changes visible damage: below Dry and above Wet
// (% wet basis) damage grows by the factors e^DryRate and e^WetRate a point.
type Damage struct{ DryRate, Dry, WetRate, Wet float64 }

// Header is how the crop meets the header.
type Header struct {
	Loss       float64 // of grain at the starting settings, %
	DryRate    float64 // growth of loss a point of grain moisture below the start, 1/%
	SpeedPower float64 // exponent of ground speed
	HeadHeight float64 // mean height of heads, pods or ears above ground, cm
	HeadSD     float64 // cm
	Plant      float64 // height of the plant, cm
	Fixed      float64 // share of MOG that does not depend on cutting height
	Snaps      bool    // ears are snapped off: no reel, no cutter bar
}

// Start is what a machine is set to, and the field it meets, if nobody says
// otherwise. Units as in package setup.
type Start struct {
	GroundSpeed, CylinderSpeed, Clearance, PreSieve, Fan, Upper, Lower float64
	ReelIndex, CuttingHeight                                           float64
	Yield, MOGRatio, GrainMoisture, StrawMoisture, LightGrain          float64
	HeaderWidth                                                        float64
}

// Band is a range of values.
type Band struct{ From, To float64 }

// Usual is the range in which practice starts each setting.
type Usual struct {
	GroundSpeed, CylinderSpeed, Clearance, PreSieve, Fan, Upper, Lower Band
	ReelIndex, CuttingHeight                                           Band
}

// Seed is the shape of a kernel, for the drawing, mm.
type Seed struct{ Length, Width, Thickness float64 }

// Crop is one crop.
type Crop struct {
	Name string

	KernelMass float64 // g per thousand kernels, which is mg a kernel
	Slice      float64 // thickness of the simulated slice, mm
	Seed       Seed

	Start Start
	Usual Usual

	// How it threshes: what a machine makes of that is its calibration, in package
	// design.
	Moisture float64 // fall of the threshing rate a point of grain moisture, 1/%
	Damage   Damage
	Seam     bool // a kernel that parts does so along its seam, in halves

	Vt, VtCV float64 // terminal velocity of a sound kernel, m/s, and its coefficient of variation
	LightVt  float64 // of a light kernel, m/s
	Size     float64 // limiting dimension of a kernel at a slot, mm

	PieceVt, PieceSize, PieceSD float64 // of an unthreshed piece: m/s, mm, mm
	PieceKernels                int     // kernels it holds

	Husk  float64 // chaff that the pieces carry, share of MOG
	Chaff Class
	Short Class
	Straw Class // long straw or whole cobs; only Mass and Pieces are used
	Weed  Class

	MatDensity float64 // of the mat on the sieve, kg/m³

	Header Header
}

// Names lists the crops in their usual order.
func Names() []string {
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].Name
	}
	return names
}

// Find returns the crop of the given name, or nil.
func Find(name string) *Crop {
	for i := range all {
		if all[i].Name == name {
			return &all[i]
		}
	}
	return nil
}

// KernelKg returns the mass of one kernel, kg.
func (c *Crop) KernelKg() float64 { return c.KernelMass * 1e-6 }
