// Package forecast is the expected-value twin of the whole machine: the same
// laws, applied to classes of kernels and streams of other material instead of
// dots, with the returns closed in a loop. It gives the report of a long run
// in a few milliseconds.
package forecast

import (
	"errors"
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/feed"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/section"
	"riddle/sim/stage/shoe"
	"riddle/sim/stage/straw"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
)

// Seconds is the window that a report speaks of. By definition.
const Seconds = 60

// When the loop of the returns has closed. Chosen.
const (
	maxRounds = 40 // of the loop
	// unsettled is the change of the MOG that comes back, over that on the shoe,
	// from which it is too soon to sieve grain.
	unsettled = 0.01
	near      = 1e-3 // change of returns over feed at which the loop has settled
)

// Option changes how a forecast is made.
type Option func(*twin)

// WithEngine holds the engine at a share of its set speed, whatever its load.
func WithEngine(share float64) Option { return func(t *twin) { t.held = share } }

// WithFaults gives the machine faults.
func WithFaults(faults fault.Set) Option { return func(t *twin) { t.setFaults(faults) } }

// WithPause has the forecast call between its rounds, so that who has other
// things to do can do them, and give the forecast up by answering false.
func WithPause(goOn func() bool) Option { return func(t *twin) { t.goOn = goOn } }

// ErrStopped is the error of a forecast that was given up.
var ErrStopped = errors.New("the forecast was given up")

// Report returns what a long run of the machine with straw walkers comes to in the
// mean, so set.
func Report(s setup.Setup, options ...Option) (readout.Report, error) {
	return ReportOf(machines.Walkers, s, options...)
}

// ReportOf is Report for a machine of any kind.
func ReportOf(kind *machines.Machine, s setup.Setup, options ...Option) (readout.Report, error) {
	if err := s.Validate(); err != nil {
		return readout.Report{}, err
	}
	c, err := kind.In(s.Crop)
	if err != nil {
		return readout.Report{}, err
	}
	t := newTwin(kind, c, s)
	t.setFaults(fault.OfParts(s.Stopped))
	for _, o := range options {
		o(t)
	}
	if !t.solve() {
		return readout.Report{}, ErrStopped
	}
	return t.report(), nil
}

// twin is one forecast in the making. Streams are in kg/s over the full width.
type twin struct {
	set  setup.Setup
	crop *design.Fit
	kind *machines.Machine
	cond crop.Condition
	held float64     // engine speed, 0 for free
	told fault.Set   // what is wrong with the machine
	bad  fault.State // and what that leaves of it
	goOn func() bool // nil never stops

	bins    []flow.Bin // loose kernels, then pieces
	loose   int        // how many of them are loose kernels
	in      feed.Stream
	engine  float64
	died    bool // the engine, under more than it has
	cyl     thresh.Expected
	parts   thresh.Parts            // of broken grain, by how much of a kernel they are
	class   [thresh.Classes]float64 // the same by the classes of the bins
	walkers straw.Expected
	shoe    *shoe.Twin
	blown   float64 // engine speed at which the shoe found its air
	fates   []shoe.Shares
	landing []float64
	sieved  int // rounds in which grain was sieved
	mogFate [3]shoe.Shares

	onShoe, back []float64    // grain over the step, and coming back, by bin
	over         []float64    // grain over the end of the concave, by bin
	mog, mogBack shoe.Streams // MOG the same
	mogOver      [4]float64   // chaff, short straw, weeds, long straw over the end of the concave
	husk         husks
}

// husks is the husk that pieces carry.
type husks struct{ through, over, onShoe, back float64 }

func newTwin(kind *machines.Machine, c *design.Fit, s setup.Setup) *twin {
	k := &s.Conditions
	t := &twin{kind: kind, set: s, crop: c, cond: c.In(k.GrainMoisture, k.StrawMoisture, k.GreenWeeds, k.LightGrain), engine: 1}
	t.bins = thresh.Bins(c, &t.cond)
	t.loose = len(t.bins)
	t.bins = append(t.bins, feed.Bins(c.Crop, &t.cond)...)
	n := len(t.bins)
	t.fates, t.landing = make([]shoe.Shares, n), make([]float64, n)
	t.onShoe, t.back, t.over = make([]float64, n), make([]float64, n), make([]float64, n)
	t.in = feed.Expect(c.Crop, &t.set, &t.cond)
	t.shoe = shoe.NewTwin(c, t.bins)
	return t
}

func (t *twin) setFaults(faults fault.Set) {
	t.told = t.told.And(faults)
	t.bad = t.told.State()
	t.set.Stopped |= t.bad.Stopped
	t.in = feed.Expect(t.crop.Crop, &t.set, &t.cond)
}

// solve goes round the machine until the returns no longer change, or until
// the forecast is given up.
func (t *twin) solve() bool {
	if t.held > 0 {
		t.engine = t.held
	}
	last := math.Inf(1)
	for round := range maxRounds {
		if t.goOn != nil && !t.goOn() {
			return false
		}
		t.thresh()
		t.walk()
		t.clean(round)
		now := t.returned()
		settled := math.Abs(now-last) < near*max(t.fresh(), 0.01) && t.sieved > 2
		if settled && t.shoe.Care == shoe.Fine || t.plug() != nil && round > 12 {
			break
		}
		if settled {
			t.shoe.Care = shoe.Fine
		}
		last = now
	}
	return true
}

// fresh is the grain that comes past the header, kg/s.
func (t *twin) fresh() float64 { return t.in.Met - t.in.Lost }

// returned is all that comes back, kg/s.
func (t *twin) returned() float64 {
	return sum(t.back) + t.mogBack[0] + t.mogBack[1] + t.mogBack[2] + t.husk.back
}

// thresh lets the cylinder find its speed, and parts grain and MOG.
func (t *twin) thresh() {
	back := sum(t.back)
	q := t.in.Husk + t.in.Straw + t.in.Weed + t.returned() - back + thresh.LoadFeed(t.crop, back)
	if t.held == 0 {
		t.engine, t.died = t.pull(q)
	}
	t.cyl = t.kind.Thresh.Expect(t.crop, &t.set, &t.cond, t.engine, q, &t.bad.Grate)
	shed := thresh.ShedOf(t.cyl.Rates.Fines)
	t.parts = thresh.PartShares(t.crop, &shed)
	for i := range t.class {
		t.class[i] = t.parts.OfClass(uint8(i))
	}
	t.circulate()
	t.threshMOG()
}

// circulate closes the loop of the grain for the fates of the last round.
func (t *twin) circulate() {
	for range 60 {
		before := sum(t.back)
		t.threshGrain()
		for i := range t.back {
			t.onShoe[i] = t.onShoe[i] + t.over[i]*t.sifted(i)
			t.back[i] = t.onShoe[i] * t.fates[i].Back
		}
		if math.Abs(sum(t.back)-before) < 1e-9*t.fresh() {
			return
		}
	}
}

// sifted is the share of a bin on the walkers that falls through.
func (t *twin) sifted(bin int) float64 {
	if bin < t.loose {
		return t.walkers.Grain
	}
	return t.walkers.Pieces
}

// threshGrain parts fresh and returned grain: into onShoe what falls through
// the concave, into over what leaves over its end.
func (t *twin) threshGrain() {
	e, fresh := &t.cyl, t.fresh()
	again := sum(t.back[t.loose:])
	free := thresh.Split{
		Through: fresh*e.Kernel.Through + again*e.Again.Through,
		Over:    fresh*e.Kernel.Over + again*e.Again.Over,
	}
	knocked := thresh.Split{ // of what is whole when it comes loose, broken for closed wires
		Through: fresh*e.KernelKnocked.Through + again*e.AgainKnocked.Through,
		Over:    fresh*e.KernelKnocked.Over + again*e.AgainKnocked.Over,
	}
	whole := 0.0  // loose grain that comes round and stays whole at the first bar
	broken := 0.0 // loose grain that breaks as it comes round
	for i := range t.loose {
		if t.bins[i].Kind != flow.Broken {
			broken += t.back[i] * e.Rates.Damage
			whole += t.back[i] * (1 - e.Rates.Damage)
		}
	}
	for i, b := range t.bins {
		if i >= t.loose {
			t.onShoe[i] = fresh*b.Share*e.Piece.Through + t.back[i]*e.PieceAgain.Through
			t.over[i] = fresh*b.Share*e.Piece.Over + t.back[i]*e.PieceAgain.Over
			continue
		}
		kind, round := t.freed(b.Kind), t.back[i]
		if b.Kind == flow.Broken {
			round += broken * t.share(&b)
			more := t.share(&b) * (1 - e.Rates.Damage)
			t.onShoe[i] = free.Through*kind*t.share(&b) + round*e.Free.Through + knocked.Through*more + whole*e.FreeKnocked.Through*t.share(&b)
			t.over[i] = free.Over*kind*t.share(&b) + round*e.Free.Over + knocked.Over*more + whole*e.FreeKnocked.Over*t.share(&b)
			continue
		}
		round *= 1 - e.Rates.Damage
		t.onShoe[i] = (free.Through-knocked.Through)*kind*t.share(&b) + round*(e.Free.Through-e.FreeKnocked.Through)
		t.over[i] = (free.Over-knocked.Over)*kind*t.share(&b) + round*(e.Free.Over-e.FreeKnocked.Over)
	}
}

// share is the share of a kind that is of a bin.
func (t *twin) share(b *flow.Bin) float64 {
	if b.Kind == flow.Broken {
		return b.Share * t.class[b.Class]
	}
	return b.Share
}

// freed is the share of freed kernels that are of a kind.
func (t *twin) freed(k flow.Kind) float64 {
	switch k {
	case flow.Broken:
		return t.cyl.Rates.Damage
	case flow.Light:
		return t.cond.Light * (1 - t.cyl.Rates.Damage)
	}
	return (1 - t.cond.Light) * (1 - t.cyl.Rates.Damage)
}

// threshMOG does with MOG what threshGrain does with grain.
func (t *twin) threshMOG() {
	e := &t.cyl
	chaff := thresh.Split{
		Through: t.in.Husk*e.Husk.Through + t.husk.back*e.HuskAgain.Through,
		Over:    t.in.Husk*e.Husk.Over + t.husk.back*e.HuskAgain.Over,
	}
	kept := t.in.Husk*(1-e.Husk.Through-e.Husk.Over) + t.husk.back*(1-e.HuskAgain.Through-e.HuskAgain.Over)
	pieces := e.Piece.Through + e.Piece.Over
	t.husk.through, t.husk.over = 0, kept
	if pieces > 0 {
		t.husk.through, t.husk.over = kept*e.Piece.Through/pieces, kept*e.Piece.Over/pieces
	}
	weed := t.in.Weed + t.mogBack[2]
	t.mog = shoe.Streams{
		chaff.Through + t.mogBack[0]*e.Chaff.Through,
		t.in.Straw*e.Cut + t.mogBack[1]*e.Short.Through,
		weed * e.Weed.Through,
	}
	t.mogOver = [4]float64{
		chaff.Over + t.mogBack[0]*e.Chaff.Over, t.mogBack[1]*e.Short.Over + t.in.Straw*e.Kept, weed * e.Weed.Over, t.in.Straw * (1 - e.Cut - e.Kept),
	}
}

// walk lets grain and chaff fall through the walkers onto the shoe.
func (t *twin) walk() {
	r := &t.cyl.Rates
	t.walkers = t.kind.Separate.Expect(t.crop, &t.set, &t.cond, r.Chaff+r.Short, t.engine, t.bad.Walkers, straw.Load{
		Chaff: t.mogOver[0], Short: t.mogOver[1], Rest: t.mogOver[2] + t.mogOver[3], Husk: t.husk.over,
	})
	t.mog[0] += t.mogOver[0] * t.walkers.MOG
	t.mog[1] += t.mogOver[1] * t.walkers.MOG
	t.husk.onShoe = t.husk.through + t.husk.over*t.walkers.Pieces
}

// clean lets the shoe find its air, then sieves.
func (t *twin) clean(round int) {
	rounds := 2
	if round == 0 {
		rounds = 4
	}
	const perMetre = 1 / section.InnerWidth
	var mog shoe.Streams
	for k := range mog {
		mog[k] = t.mog[k] * perMetre
	}
	t.blown = t.engine
	t.mogFate = t.shoe.Settle(&t.set, &t.cond, t.engine, mog, rounds)
	crowd := shoe.Crowd{}
	for i, kg := range t.onShoe {
		crowd.Grain += kg * t.landing[i] * perMetre
	}
	for k := range mog {
		crowd.MOG += mog[k] * t.shoe.Landing(k)
	}
	moved := 0.0 // MOG that comes back, against the last round
	for k := range mog {
		now := t.mog[k] * t.mogFate[k].Back
		moved += math.Abs(now - t.mogBack[k])
		t.mogBack[k] = now
	}
	if round == 0 || moved < unsettled*(t.mog[0]+t.mog[1]+t.mog[2]) {
		t.shoe.Sieve(crowd, t.fates, t.landing)
		t.sieved++
	}
	t.husk.back = t.husk.onShoe * t.pieceShare(func(f shoe.Shares) float64 { return f.Back })
	t.circulate()
}

// pieceShare is the share of the pieces on the shoe, by their grain, that end
// somewhere.
func (t *twin) pieceShare(end func(shoe.Shares) float64) float64 {
	all, part := 0.0, 0.0
	for i := t.loose; i < len(t.bins); i++ {
		all += t.onShoe[i]
		part += t.onShoe[i] * end(t.fates[i])
	}
	if all == 0 {
		return 0
	}
	return part / all
}

func sum(v []float64) (s float64) {
	for _, x := range v {
		s += x
	}
	return s
}

// report reads the streams as a window of a run would be read.
func (t *twin) report() readout.Report {
	span := readout.Span{
		Setup: t.set, Seconds: Seconds, Model: sim.Model, State: sim.Running.String(),
		CylinderRPM: t.cyl.RPM, DriveKW: sim.DriveKW, Power: t.power(t.engine, t.cyl.Drive.KW),
	}
	if t.slow() {
		span.State = sim.Slowing.String()
	}
	m := t.masses()
	if p := t.plug(); p != nil {
		span = readout.Span{Setup: t.set, Model: sim.Model, State: sim.Plugged.String(), Plug: p}
		m = readout.Masses{Scale: 1}
	}
	r := readout.Make(m, span)
	r.PluggedAtS = nil
	r.Faults = t.told.Told()
	if p := t.plug(); p == nil && m.MOGIn > 0 {
		made := (t.in.Husk*(t.cyl.Husk.Through+t.cyl.Husk.Over) + t.in.Straw*(t.cyl.Cut+t.cyl.Kept)) * 100 / t.mogIn()
		r.Concave.BrokenUp = &made
	}
	return r
}
