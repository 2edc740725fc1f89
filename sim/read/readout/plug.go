package readout

import "fmt"

// A machine that plugged is read up to the plug. Its sample is graded only
// where it is a sample. Chosen.
const (
	leastSeconds = 30   // of the window, half of the usual one
	leastTanked  = 0.50 // of the grain fed that has to have come into the tank
	leastOut     = 0.20 // of the grain fed that has to have left the machine before its losses are read
)

// plugged takes out of a report what the machine did not come to before it
// plugged.
func (r *Report) plugged(m *Masses) {
	if !(r.WindowS > 0) { // a forecast, or a plug in the warm-up: nothing was reached
		r.Tank.Kg = nil
		r.ungrade("the machine plugged before there was a sample")
		return
	}
	if m.out() < leastOut*m.fed() { // losses would be shares of what happened to come out first
		r.Loss, r.ShoeLoss, r.LossKgHa, r.LossBuAc, r.LossPerM2, r.LossPerFt2 = Loss{}, ShoeLoss{}, Loss{}, Loss{}, Loss{}, Loss{}
		r.Returns = Returns{}
		r.Tank.Sound, r.Tank.Broken, r.Tank.Unthreshed, r.Tank.Foreign, r.Tank.TestWeight = nil, nil, nil, nil, nil
	}
	switch {
	case r.WindowS < leastSeconds:
		r.ungrade(fmt.Sprintf("the machine plugged %s s into the window, too soon for a sample", short(&r.WindowS)))
	case m.TankGrain < leastTanked*m.fed():
		r.ungrade(fmt.Sprintf("only %.0f %% of the grain fed came into the tank before the machine plugged", 100*m.TankGrain/m.fed()))
	}
}

// ungraded reports whether a plugged machine's sample was none to grade; then it
// is none to price either.
func (r *Report) ungraded() bool { return r.PluggedIn != nil && r.Tank.Grade == nil }

// ungrade takes the grade back, and what it was found from.
func (r *Report) ungrade(why string) {
	t := &r.Tank
	t.Grade, t.GradedAs, t.GradedKeys, t.GradedBy = nil, nil, nil, because(why)
	for key := range t.GradeFactors {
		t.GradeFactors[key] = nil
	}
}

// plug says where and why the machine plugged, and what the report can tell of
// it. It reports whether there is nothing more to read.
func (p *page) plug(r *Report) (nothing bool) {
	if r.PluggedIn == nil {
		return false
	}
	nothing = !(r.WindowS > 0)
	switch {
	case forecast(r):
		p.line("It plugs: %s. %s", word(r.PluggedIn), word(r.PluggedWhy))
		p.line("A machine so set never comes to rest, so there is no reading of it. Drive slower, or cut higher.")
	case r.PluggedAtS != nil:
		p.line("Plugged %s s after the first tick: %s. %s", short(r.PluggedAtS), word(r.PluggedIn), word(r.PluggedWhy))
		if nothing {
			p.line("That was in the warm-up, so there is no window to read.")
		}
	}
	p.line("%s", Caution)
	return nothing
}

// unread prints what is known of a machine that plugged before its losses could
// be read. It reports whether that was all.
func (p *page) unread(r *Report) bool {
	if r.PluggedIn == nil || r.Loss.Total != nil {
		return false
	}
	p.line("\nToo little grain came out before the machine plugged for its losses and its sample to be read.")
	if r.Cylinder.SpeedRPM != nil && r.Cylinder.PowerKW != nil {
		p.line("Up to there its cylinder turned with %s rpm and took %s kW in the mean.", fixed(r.Cylinder.SpeedRPM, 0), fixed(r.Cylinder.PowerKW, 1))
	}
	p.power(r)
	return true
}

func because(why string) *string { return &why }
