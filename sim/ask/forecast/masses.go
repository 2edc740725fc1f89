package forecast

import (
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/returns"
	"riddle/sim/stage/shoe"
	"riddle/sim/trade/grade"
)

// masses returns what passes each gate in the window, kg over the full width.
func (t *twin) masses() readout.Masses {
	m := readout.Masses{
		Scale: 1, In: t.in.Met, LostHeader: t.in.Lost, MOGIn: t.mogIn(),
		ToCylinder: t.fresh() + sum(t.back), MOGThrough: t.through(),
		BackMOG:   t.mogBack[0] + t.mogBack[1] + t.mogBack[2] + t.husk.back,
		WalkerMOG: sum(t.mogOver[:]) + t.husk.over, ShoeMOG: t.mog[0] + t.mog[1] + t.mog[2] + t.husk.onShoe,
	}
	m.MOGToCylinder = m.MOGIn + m.BackMOG
	for i, b := range t.bins {
		over, f, kg := t.over[i]*(1-t.sifted(i)), t.fates[i], t.onShoe[i]
		through := kg - t.over[i]*t.sifted(i)
		m.TankGrain += kg * f.Tank
		if i >= t.loose {
			m.Unthreshed += over + kg*f.Lost()
			m.LeftUnthreshed += through + t.over[i]
			m.BackUnthreshed += kg * f.Back
			m.TankUnthreshed += kg * f.Tank
			continue
		}
		m.Separated += through
		m.Walker += over
		m.Blown += kg * f.Blown
		m.Ridden += kg * f.Ridden
		m.BackFree += kg * f.Back
		if b.Kind == flow.Broken {
			m.TankBroken += kg * f.Tank
		}
	}
	m.Sample = t.sample()
	m.TankForeign = m.Sample.Husk + m.Sample.Chaff + m.Sample.Straw + m.Sample.Weed
	return over(m, Seconds)
}

// mogIn is the MOG that comes in, kg/s.
func (t *twin) mogIn() float64 { return t.in.Husk + t.in.Straw + t.in.Weed }

// through is the MOG that falls through the concave, kg/s.
func (t *twin) through() float64 {
	e := &t.cyl
	return t.in.Husk*e.Husk.Through + t.husk.back*e.HuskAgain.Through + t.husk.through + t.mogBack[0]*e.Chaff.Through +
		t.in.Straw*e.Cut + t.mogBack[1]*e.Short.Through + (t.in.Weed+t.mogBack[2])*e.Weed.Through
}

// sample parts what falls into the tank as the grader's sieves do, kg/s.
func (t *twin) sample() grade.Sample {
	s := grade.Sample{
		Husk:  t.husk.onShoe * t.pieceShare(func(f shoe.Shares) float64 { return f.Tank }),
		Chaff: t.mog[0] * t.mogFate[0].Tank, Straw: t.mog[1] * t.mogFate[1].Tank, Weed: t.mog[2] * t.mogFate[2].Tank,
	}
	sieve := grade.SievingOf(t.crop.Crop)
	for i, b := range t.bins {
		kg := t.onShoe[i] * t.fates[i].Tank
		if i >= t.loose {
			s.Headed += kg
			continue
		}
		s.Loose += kg
		if b.Kind == flow.Light {
			s.Light += kg
		}
		if b.Kind != flow.Broken {
			t.sieve(&s, sieve, b, flow.Kernel, kg, 1)
			continue
		}
		t.parts.EachOf(b.Class, func(grain uint16, share, size float64) {
			t.sieve(&s, sieve, b, grain, kg*share, size)
		})
	}
	return s
}

// sieve puts kernels, or parts of so much of a kernel and of a size over that of
// their bin, on the grader's sieves.
func (t *twin) sieve(s *grade.Sample, sieve *grade.Sieving, b flow.Bin, grain uint16, kg, size float64) {
	coarse, fine := sieve.Limits(b.Kind, grain)
	through := kg * b.Below(coarse/size)
	s.Through += through
	s.Fine += kg * b.Below(min(coarse, fine)/size)
	if b.Kind != flow.Broken {
		return
	}
	if grade.IsChip(grain) {
		s.Chips += kg
	}
	if grade.IsPart(grain) {
		s.Parts += kg
		s.PartsThrough += through
	} else {
		s.Cracked += kg
	}
}

// over turns streams in kg/s into masses over a time in s.
func over(m readout.Masses, seconds float64) readout.Masses {
	for _, v := range []*float64{
		&m.In, &m.MOGIn, &m.LostHeader, &m.Unthreshed, &m.Walker, &m.Blown, &m.Ridden, &m.ToCylinder, &m.Separated, &m.LeftUnthreshed,
		&m.MOGToCylinder, &m.MOGThrough, &m.WalkerMOG, &m.ShoeMOG, &m.BackFree, &m.BackUnthreshed, &m.BackMOG, &m.TankGrain, &m.TankBroken, &m.TankUnthreshed, &m.TankForeign,
		&m.Sample.Loose, &m.Sample.Through, &m.Sample.Fine, &m.Sample.Parts, &m.Sample.PartsThrough, &m.Sample.Chips, &m.Sample.Cracked, &m.Sample.Light,
		&m.Sample.Headed, &m.Sample.Husk, &m.Sample.Chaff, &m.Sample.Straw, &m.Sample.Weed,
	} {
		*v *= seconds
	}
	return m
}

// slow reports whether the machine is close to what it can pull.
func (t *twin) slow() bool {
	took := t.power(t.engine, t.cyl.Drive.KW)
	return sim.Slow(t.cyl.Drive.X*t.engine, &took)
}

// plug returns where and why the machine cannot go on at a steady load, or nil.
// When it would plug, a forecast does not know.
func (t *twin) plug() *readout.Plug {
	switch {
	case t.cyl.Drive.Stalled():
		return reason(sim.CylinderPlug)
	case t.died:
		return reason(sim.EnginePlug)
	case t.walkers.Full:
		return reason(sim.WalkerPlug)
	case t.returned() > returns.Capacity:
		return reason(sim.ReturnsPlug)
	}
	return nil
}

func reason(way int) *readout.Plug {
	return &readout.Plug{Where: sim.Plugs[way].Where, Why: sim.Plugs[way].Why}
}
