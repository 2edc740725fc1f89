package flow

// Grain is a count of grain in parts of a kernel, Kernel of which are one.
type Grain = int64

// MOG is a mass of material other than grain in µg.
type MOG = int64

// Tally is what has passed each gate of the machine since the first tick, as
// whole numbers. A reading over a window is the difference of two tallies.
type Tally struct {
	In    Grain // cut or lost at the header
	InMOG MOG   // cut

	Lost       [Causes]Grain // by cause, counted as each dot crosses its edge
	Unthreshed struct{ Straw, Shoe Grain }

	Cylinder struct { // what entered the gap, fresh and returned
		Grain     Grain
		Free      Grain // of it already loose
		MOG       MOG
		Broken    Grain // kernels that a strike broke
		Strikes   int64
		Freed     Grain
		Separated Grain // free grain through the concave
		Through   Grain // unthreshed grain through the concave
		Over      Grain // unthreshed grain off its rear end
		MOGOut    MOG   // MOG through the concave
	}
	Walkers struct { // what the walkers took on and gave back
		Free    Grain
		Grain   Grain // free grain that fell through
		Pieces  Grain // unthreshed grain that fell through
		MOG     MOG   // MOG that fell through
		MOGOver MOG   // straw off the rear
	}
	Shoe struct {
		Grain    Grain // over the step, free and unthreshed
		MOG      MOG
		PreSieve Grain // through the pre-sieve
		Upper    Grain // through the upper sieve onto the lower
		Tail     Grain // through the upper sieve's tail into the returns
		Lower    Grain // through the lower sieve
		MOGOver  MOG   // MOG off the rear, carried or flying
	}
	Returns struct {
		Free       Grain
		Unthreshed Grain
		MOG        MOG
		Back       Grain // delivered to the cylinder
	}
	Tank struct { // what fell into the tank
		Grain      Grain
		Broken     Grain
		Light      Grain
		Unthreshed Grain
		Foreign    MOG // chaff, straw and weed, and the husk on unthreshed pieces

		// The same again as the grader's sieves part it.
		Through      Grain // loose, through the crop's sieve
		Fine         Grain // of it through the second sieve
		Parts        Grain // loose, with more than a quarter of the kernel gone
		PartsThrough Grain // of it through the crop's sieve
		Chips        Grain // of Parts less than a quarter of a kernel
		Chaff        MOG   // of Foreign
		Straw        MOG   // of Foreign, short and long
		Weed         MOG   // of Foreign
	}
	Unloaded Grain    // left the tank for the truck
	Work     struct { // summed over ticks
		Ticks int64
		RPM   float64 // of the cylinder
		Power Power
	}
	Ground struct { // straw that left through the hood
		Chopped MOG
		Windrow MOG
	}
}

// Fed returns the grain that came past the header into the machine.
func (t *Tally) Fed() Grain { return t.In - t.Lost[Header] }

// Out returns the grain that left the machine: into the tank, or lost behind it.
func (t *Tally) Out() Grain {
	return t.Tank.Grain + t.Lost[Unthreshed] + t.Lost[Walker] + t.Lost[Blown] + t.Lost[Ridden]
}
