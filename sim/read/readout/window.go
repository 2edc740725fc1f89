package readout

import (
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// Span says over what a report is made, beside what was counted.
type Span struct {
	Setup    setup.Setup // as it stands at the end of the span
	Seconds  float64     // of simulated time
	Hectares float64     // harvested by the whole machine; 0 takes ground speed and width from Setup
	Left     float64     // ha that the grain stood on which left the machine; 0 takes as much as was harvested

	Model string // version of the laws
	State string // running, slowing or plugged
	Plug  *Plug  // nil unless plugged

	// Means over the span, 0 where not known. Window reads them from its tallies.
	CylinderRPM float64
	DriveKW     float64    // that the cylinder's belt passes at most
	Power       flow.Power // kW

	Prices *Prices // nil takes DefaultPrices
}

// Plug says when, where and why a machine plugged.
type Plug struct {
	At         float64 // s after the first tick
	Where, Why string
}

// Window reads what a machine counted between two tallies. The ledger alone
// reaches back to the first tick: it is the later tally.
func Window(before, after flow.Tally, over Span) Report {
	over.worked(&before, &after)
	m := between(&before, &after, crop.Find(over.Setup.Crop))
	m.early = early(&before, &after)
	r := Make(m, over)
	r.Ledger = ledger(&after)
	return r
}

// Make reads masses, counted or expected. It leaves ledger, tick rate, most
// dots, digest and pace null: those belong to a machine that ran.
func Make(m Masses, over Span) Report {
	c := crop.Find(over.Setup.Crop)
	m.least = fewest * m.kernel(c)
	r := Report{
		Schema: Schema, Model: over.Model, Seed: over.Setup.Seed, Crop: over.Setup.Crop,
		Settings: fields(&over.Setup, c, false), Conditions: fields(&over.Setup, c, true),
		WindowS: over.Seconds, State: over.State,
		SliceMM: c.Slice,
	}
	if p := over.Plug; p != nil {
		r.PluggedAtS, r.PluggedIn, r.PluggedWhy = &p.At, &p.Where, &p.Why
	}
	hectares := over.Hectares
	if hectares == 0 {
		s := &over.Setup
		hectares = HectaresAnHour(s.Settings.GroundSpeed, s.Conditions.HeaderWidth) * over.Seconds / 3600
	}
	r.Feed = m.feed(over.Seconds, hectares)
	left := over.Left
	if left == 0 {
		left = hectares
	}
	r.Loss, r.ShoeLoss = m.loss()
	r.LossKgHa = m.lossKgHa(hectares, left)
	if r.LossKgHa.Processing != nil {
		r.LeftHa = &left
	}
	r.LossBuAc, r.LossPerM2, r.LossPerFt2 = onTheGround(r.LossKgHa, c)
	r.Concave, r.Returns = m.concave(), m.returns()
	if !m.enough(m.inTank()) {
		m.Sample = grade.Sample{}
	}
	graded := grade.Judge(c, m.Sample, over.Setup.Conditions.GrainMoisture)
	r.Tank = m.tank(&graded)
	if over.Plug != nil {
		r.plugged(&m)
	}
	r.LossSE, r.ShoeLossSE, r.TankSE = m.errors(c, &r.Tank)
	r.Power = power(over.Power, r.Feed.GrainTH)
	if !m.enough(m.fed()) {
		r.Power.PerTonne = nil
	}
	r.Cylinder.PowerKW = r.Power.Cylinder
	if p := r.Cylinder.PowerKW; p != nil {
		r.Cylinder.OfDrive = percent(*p, over.DriveKW)
	}
	r.Loads, r.LoadsSE = m.loads(over.Seconds), m.loadErrors(c, over.Seconds)
	if over.CylinderRPM > 0 {
		r.Cylinder.SpeedRPM = &over.CylinderRPM
	}
	prices := DefaultPrices(c.Name)
	if over.Prices != nil {
		prices = *over.Prices
	}
	r.Money = MoneyOf(&r, prices)
	return r
}

// HectaresAnHour returns the rate of work at a ground speed in km/h over a
// width in m.
func HectaresAnHour(speed, width float64) float64 { return speed * width / 10 }

// WholeMachine returns how often the simulated slice lies side by side in the
// whole machine.
func WholeMachine(c *crop.Crop) float64 { return section.InnerWidth * 1000 / c.Slice }

// fields lists settings or conditions by their JSON keys: a number in the
// field's unit, a truth value for a switch, null where the header has none.
func fields(s *setup.Setup, c *crop.Crop, conditions bool) map[string]any {
	m := map[string]any{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		switch {
		case f.Condition != conditions:
		case !f.On(c):
			m[f.Key] = nil
		case f.Switch():
			m[f.Key] = f.Get(s) != 0
		default:
			m[f.Key] = f.Get(s)
		}
	}
	return m
}

// ledger counts in whole kernels. Each way out is rounded down and what is
// inside takes the rest, so that the sum is exact; the rest is never negative,
// since the parts of a sum rounded down never exceed the sum rounded down.
func ledger(t *flow.Tally) *Ledger {
	l := Ledger{
		KernelsIn:  t.In / flow.Kernel,
		Tank:       t.Tank.Grain / flow.Kernel,
		Header:     t.Lost[flow.Header] / flow.Kernel,
		Unthreshed: t.Lost[flow.Unthreshed] / flow.Kernel,
		Walker:     t.Lost[flow.Walker] / flow.Kernel,
		Shoe:       (t.Lost[flow.Blown] + t.Lost[flow.Ridden]) / flow.Kernel,
	}
	l.Inside = l.KernelsIn - l.Tank - l.Header - l.Unthreshed - l.Walker - l.Shoe
	return &l
}
