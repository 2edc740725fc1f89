package bridge

import (
	"encoding/json"
	"math"

	"riddle/sim"
	"riddle/sim/setup"
	keep "riddle/web/share"
)

// Pair is two machines side by side: the same crop, field, day and seed, each
// with settings of its own, stepped in turn tick by tick. What both share is
// asked of the first; the second follows.
type Pair struct {
	First, Second *Session
	begun         int // of the first, when the second was last put beside it
}

// NewPair puts the machine of a session back to the edge of the field, and a
// second one beside it: with the settings given, or else with the same.
func NewPair(first *Session, settings *setup.Settings) (*Pair, error) {
	p := &Pair{First: first, Second: NewSession()}
	if err := first.again(first.machine.Setup().Seed); err != nil {
		return nil, err
	}
	set := first.machine.Setup()
	if settings != nil {
		set.Settings = *settings
	}
	if err := p.beside(set); err != nil {
		return nil, err
	}
	first.warmUp(warmTicks)
	p.follow()
	return p, nil
}

// Fork puts a second machine beside that of a session that stands as it does at
// this moment, with all that has been read of it, and goes on by itself from
// there.
func Fork(first *Session) *Pair {
	p := &Pair{First: first, Second: first.fork(), begun: first.begun}
	p.follow()
	return p
}

// back takes both machines back to the same moment.
func (p *Pair) back() {
	a, b := p.First, p.Second
	to := max(a.earlier(), b.earlier())
	a.back(to)
	b.back(to)
}

// beside puts a new second machine to where the first one stands.
func (p *Pair) beside(set setup.Setup) error {
	a, b := p.First, p.Second
	start := a.run.Again()
	start.Setup = set
	if err := b.begin(start); err != nil {
		return err
	}
	b.start, b.scene = a.start, a.scene
	p.begun = a.begun
	return nil
}

// Do carries out a command to both machines, or to the first where it is one
// of its settings.
func (p *Pair) Do(text string) string {
	var c Command
	known := json.Unmarshal([]byte(text), &c) == nil
	if known && c.Do == "back" {
		p.back()
		return encode(Reply{Setup: p.First.Setup()})
	}
	if known && c.Do == "step" {
		if err := p.steps(c.Value); err != nil {
			return encode(p.First.refusal(err))
		}
		return encode(Reply{})
	}
	was := p.First.machine.Setup()
	reply := p.First.Do(text)
	if p.First.begun != p.begun {
		p.begin()
	} else {
		if known && c.Do == "restore" {
			p.release()
		}
		p.share(&was)
	}
	p.follow()
	return reply
}

// begin puts the second machine to where the first one has just been put, with
// its own settings where the crop is still the same.
func (p *Pair) begin() {
	set, mine := p.First.machine.Setup(), p.Second.machine.Setup()
	if set.Crop == mine.Crop {
		set.Settings = mine.Settings
	}
	if err := p.beside(set); err != nil {
		panic(err) // the first took crop and conditions, the second the settings
	}
}

// release gives the conditions of the second machine back to field and day, as
// restoring has just done in the first.
func (p *Pair) release() {
	if err := p.Second.run.Release(); err != nil {
		panic(err) // the first took it
	}
}

// share brings to the second machine the conditions that have been changed in
// the first.
func (p *Pair) share(was *setup.Setup) {
	now, to := p.First.machine.Setup(), p.Second.machine.Setup()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if v := f.Get(&now); f.Condition && v != f.Get(was) {
			if err := f.Set(&to, v); err != nil {
				panic(err) // the first took it
			}
		}
	}
	if err := p.Second.changeTo(to); err != nil {
		panic(err) // every value has been taken by one of the two
	}
}

// follow brings to the second machine what is not of a machine: pace, units,
// price.
func (p *Pair) follow() {
	a, b := p.First, p.Second
	b.running, b.speed, b.units, b.price, b.warm = a.running, a.speed, a.units, a.price, a.warm
}

// DoSecond carries out a command to the second machine: one of its settings,
// nothing that both share.
func (p *Pair) DoSecond(text string) string {
	var c Command
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		return encode(Reply{Error: "the command is not understood: " + err.Error()})
	}
	if f := setup.Find(c.Name); c.Do != "set" || f == nil || f.Condition {
		err := &setup.Error{Field: c.Name, Value: c.Do, Want: "a setting; crop, field and seed are those of the first machine"}
		return encode(p.Second.refusal(err))
	}
	return p.Second.Do(text)
}

// Swap changes the places of the two machines, with all that is in them.
func (p *Pair) Swap() {
	p.First, p.Second = p.Second, p.First
	p.begun = p.First.begun
	latest := max(p.First.revision, p.Second.revision) + 1
	p.First.revision, p.Second.revision = latest, latest
}

// Copy sets one machine as the other: the first as the second, or the other
// way round.
func (p *Pair) Copy(toFirst bool) error {
	from, to := p.First, p.Second
	if toFirst {
		from, to = to, from
	}
	set := to.machine.Setup()
	set.Settings = from.machine.Setup().Settings
	return to.changeTo(set)
}

// Update makes the steps that one update of the engine brings, of both
// machines alike: what does not fit into the frame is missing from both.
func (p *Pair) Update(spent func() bool) (steps int) {
	a := p.First
	if a.warm > 0 && !p.plugged() {
		steps = p.run(a.warm, spent)
		a.warm -= steps
		p.follow()
		return steps
	}
	if !a.running || p.plugged() {
		return 0
	}
	a.due += a.speed * sim.TickHz / UpdatesPerSecond
	whole := int(a.due)
	a.due -= float64(whole)
	steps = p.run(whole, spent)
	a.pace.add(float64(steps) * UpdatesPerSecond / sim.TickHz)
	p.Second.pace = a.pace
	return steps
}

// plugged reports whether nothing moves any more. Where one has plugged the
// other goes on.
func (p *Pair) plugged() bool { return p.First.plugged() && p.Second.plugged() }

// run makes a number of ticks of both machines, in turn.
func (p *Pair) run(n int, stop func() bool) (made int) {
	for made < n && !p.plugged() && !stop() {
		p.First.tick()
		p.Second.tick()
		made++
	}
	p.First.machine.Snapshot(&p.First.snap)
	p.Second.machine.Snapshot(&p.Second.snap)
	return made
}

func (p *Pair) steps(n float64) error {
	count, err := stepsOf(n)
	if err == nil {
		p.run(count, func() bool { return false })
	}
	return err
}

// kept is what a link or a file holds of the pair.
func (p *Pair) kept() keep.Kept {
	k := p.First.kept()
	mine := p.Second.machine.Setup().Settings
	k.Second = &mine
	return k
}

// Compare is how the two machines read.
type Compare struct {
	Seconds [2]float64   `json:"seconds"` // after the first tick
	State   [2]string    `json:"state"`
	Alarm   [2]*Alarm    `json:"alarm"`
	Span    float64      `json:"span"` // over which both are read, s
	Rows    []Comparison `json:"rows"`
	Grade   [2]*Message  `json:"grade"`
	Money   [2]Money     `json:"money"`
	Setups  [2]int       `json:"setups"` // revisions of the setups
	Stacked bool         `json:"stacked"`
}

// Comparison is one reading of both, and the second less the first. Sure says
// whether the difference is more than three standard errors; it is nil where
// the reading is no count.
type Comparison struct {
	Key    string `json:"key"`
	First  Q      `json:"first"`
	Second Q      `json:"second"`
	More   Q      `json:"more"`
	Inner  bool   `json:"inner"` // a part of the row above it
	Minor  bool   `json:"minor"` // left out where there is room for little
	Sure   *bool  `json:"sure"`
}

// Compare reads both machines over the long window.
func (p *Pair) Compare() Compare {
	a, b := p.First.window(longWindow), p.Second.window(longWindow)
	c := Compare{Span: math.Floor(min(a.report.WindowS, b.report.WindowS)), Rows: make([]Comparison, 0, len(columns))}
	for i, s := range [...]*Session{p.First, p.Second} {
		c.Seconds[i], c.State[i], c.Alarm[i], c.Setups[i] = s.machine.Seconds(), s.machine.State().Condition.String(), s.alarm(), s.revision
		w := [...]*span{&a, &b}[i]
		if g := s.graded(&w.report); g != nil {
			c.Grade[i] = g.Text
		}
		c.Money[i] = s.money(&w.report)
	}
	la, lb := a.losses(), b.losses()
	for i := range columns {
		c.Rows = append(c.Rows, p.compare(&columns[i], &a, &b, &la, &lb))
	}
	return c
}

func (p *Pair) compare(col *column, a, b *span, la, lb *losses) Comparison {
	s, x, y := p.First, col.get(&a.report), col.get(&b.report)
	row := Comparison{Key: col.key, Minor: col.fine}
	if col.loss >= 0 {
		x, y = la.value[col.loss], lb.value[col.loss]
		row.Inner = lossRows[col.loss].inner
	}
	row.First, row.Second, row.More = s.q(x, col.dim), s.q(y, col.dim), s.q(nil, col.dim)
	if x == nil || y == nil {
		return row
	}
	more := *row.Second.V - *row.First.V
	row.More.V = &more
	if col.loss >= 0 {
		row.First.SE, row.Second.SE = la.spread[col.loss], lb.spread[col.loss]
		if row.First.SE != nil && row.Second.SE != nil {
			sure := math.Abs(more) > 3*math.Hypot(*row.First.SE, *row.Second.SE)
			row.Sure = &sure
		}
	}
	for _, q := range []*Q{&row.First, &row.Second, &row.More} {
		q.Fine = q.Unit == "%"
	}
	return row
}
