package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/trade/quantity"
)

// State is the one message about how the machine is doing, ten times a second.
type State struct {
	Tick     int64               `json:"tick"`
	Seconds  float64             `json:"seconds"`
	Running  bool                `json:"running"`
	Warm     float64             `json:"warm"`   // share of the warm-up that is done; 1 when it is over
	Pace     float64             `json:"pace"`   // of simulated to real time
	Behind   bool                `json:"behind"` // the pace falls short of what is asked for
	State    string              `json:"state"`
	Alarm    *Alarm              `json:"alarm"`
	Dots     int                 `json:"dots"`
	Spans    [3]float64          `json:"spans"` // of the three columns of the losses, s
	Losses   []LossRow           `json:"losses"`
	Sum      []*Message          `json:"sum"` // the losses in one line
	Tank     Sample              `json:"tank"`
	Grade    *Graded             `json:"grade"`
	Returns  Sample              `json:"returns"`
	Loads    []Load              `json:"loads"`
	Money    Money               `json:"money"`
	Under    map[string]*Message `json:"under"` // reading beneath a setting, by its name
	Notice   *Message            `json:"notice"`
	NoticeID int                 `json:"noticeId"`
	Twin     []*Message          `json:"twin"`   // the picture in words
	Ride     *RideState          `json:"ride"`   // of the dot that is followed
	Rotors   *Message            `json:"rotors"` // how slowly they are drawn
	Logged   int                 `json:"logged"`
	Compare  *Compare            `json:"compare,omitempty"` // where there are two machines
	Revision int                 `json:"revision"`
	Map      *Map                `json:"map,omitempty"` // where it has changed
}

// Alarm is why the machine stands, and what to mind.
type Alarm struct {
	Title   *Message   `json:"title"`
	Why     *Message   `json:"why"`
	Caution []*Message `json:"caution"`
}

// Sample is what a stream is made of.
type Sample struct {
	Head  *Message `json:"head"`
	Parts []Part   `json:"parts"`
}

// Part is one share of a sample: the key of its name, and how much.
type Part struct {
	Key   string `json:"key"`
	Value Q      `json:"value"`
}

// Load is how hard a part works; Share is of what it can take, %, nil where
// there is no such bound.
type Load struct {
	Key   string   `json:"key"`
	Value *Q       `json:"value"` // nil where the text says it
	Text  *Message `json:"text"`
	Share *float64 `json:"share"`
}

// State reads the machine.
func (s *Session) State() State {
	fresh, now, short, long := s.sinceBeat(), s.window(nowWindow), s.window(shortWindow), s.window(longWindow)
	st := State{
		Tick: s.snap.Tick, Seconds: s.snap.Seconds, Running: s.running && !s.plugged(), Warm: s.warmShare(), Pace: s.pace.value, Behind: s.Behind(),
		State: s.snap.State.Condition.String(), Alarm: s.alarm(), Dots: s.machine.Live(),
		Spans:  [3]float64{math.Floor(now.report.WindowS), math.Floor(short.report.WindowS), math.Floor(long.report.WindowS)},
		Losses: s.lossTable(&fresh, &now, &short, &long), Tank: s.tankSample(&long), Returns: s.returnsSample(&long), Loads: s.loads(&short),
		Money: s.money(&long.report), Under: s.under(&short), Notice: s.notice.text, NoticeID: s.notice.id, Logged: s.logged(), Revision: s.revision,
	}
	st.Grade = s.graded(&long.report)
	st.Ride, st.Rotors = s.rideState(), rotors(s.speed)
	st.Sum = st.sum(&short)
	st.Twin = s.twin(&st)
	return st
}

func (s *Session) alarm() *Alarm {
	st := s.machine.State()
	if st.Condition != sim.Plugged {
		return nil
	}
	where := slug(st.Where)
	a := &Alarm{
		Title:   say("alarm.title", With{"time": seconds(st.At), "where": say("plug." + where)}),
		Why:     say("plug." + where + ".why"),
		Caution: []*Message{say("alarm.stop"), say("alarm.hand")},
	}
	if st.Where == "tank" {
		a.Caution[1] = say("alarm.tank")
	}
	return a
}

// seconds shows a time after the first tick.
func seconds(v float64) Q { return Q{V: &v, Unit: "s", D: 1} }

// sum says the losses in one line, and before them that the machine stands.
func (st *State) sum(short *span) (text []*Message) {
	if st.Alarm != nil {
		text = append(text, st.Alarm.Title)
	}
	all := st.Losses[rows-1]
	switch {
	case all.Short.V != nil:
	case short.after.Tally.Out() == 0:
		return append(text, say("sum.none"))
	case readout.Filling(&short.before.Tally):
		return append(text, say("sum.filling"))
	default:
		return append(text, say("sum.little", With{"s": st.Spans[1]}))
	}
	return append(text, say("sum", With{"s": st.Spans[1], "share": all.Short, "perHa": *all.PerHa, "long": st.Spans[2]}))
}

func (s *Session) tankSample(w *span) Sample {
	t, se := &w.report.Tank, &w.report.TankSE
	head := say("tank.holds", With{"kg": s.qv(s.snap.TankKg, quantity.Weight)})
	if s.snap.TruckKg > 0 {
		head = say("tank.truck", With{"kg": s.qv(s.snap.TankKg, quantity.Weight), "truck": s.qv(s.snap.TruckKg, quantity.Weight)})
	}
	return Sample{head, []Part{
		{"tank.sound", share(t.Sound, nil)}, {"tank.broken", share(t.Broken, se.Broken)},
		{"tank.unthreshed", share(t.Unthreshed, se.Unthreshed)}, {"tank.foreign", share(t.Foreign, nil)},
	}}
}

func (s *Session) returnsSample(w *span) Sample {
	r := w.report.Returns
	return Sample{say("returns.share", With{"share": share(r.OfGrain, nil)}), []Part{
		{"returns.free", share(r.FreeGrain, nil)}, {"returns.unthreshed", share(r.Unthreshed, nil)}, {"returns.mog", share(r.MOG, nil)},
	}}
}

// under says what stands beneath the settings.
func (s *Session) under(w *span) map[string]*Message {
	feed := w.report.Feed
	m := map[string]*Message{}
	if feed.GrainTH != nil && feed.MOGKgS != nil {
		m["ground-speed"] = say("under.ground-speed", With{"grain": s.q(feed.GrainTH, quantity.Harvest), "mog": s.q(feed.MOGKgS, quantity.Throughput)})
	}
	m["cylinder-speed"] = say("under.cylinder-speed", With{"rpm": s.qv(s.snap.CylinderRPM, quantity.Rotation)})
	m["concave-clearance"] = say("under.concave-clearance", With{"front": s.qv(s.snap.Front, quantity.Opening), "rear": s.qv(s.snap.Rear, quantity.Opening)})
	air := func(i int) Q { return s.qv(s.snap.Air[i], quantity.Air) }
	m["fan-speed"] = say("under.fan-speed", With{"front": air(0), "middle": air(1), "rear": air(2)})
	return m
}

// Readings are the windows in numbers, for programs.
type Readings struct {
	Tick  int64          `json:"tick"`
	Short readout.Report `json:"short"`
	Long  readout.Report `json:"long"`
}

// Readings reads both windows.
func (s *Session) Readings() Readings {
	short, long := s.window(shortWindow), s.window(longWindow)
	return Readings{s.snap.Tick, short.report, long.report}
}
