package bridge

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/web/controls"
	"riddle/web/runner"
	keep "riddle/web/share"
	"riddle/web/speak"
	"riddle/web/view"
)

// The page speaks to the machine in messages, each a JSON object: "do" names its
// kind, its other keys are the fields of the Go type of that kind, and no others.
// Each is answered once, with one JSON value and, for a picture, bytes beside it.
// An answer may come at any time after the message, but answers come in the order
// of the messages. That is all that the page knows of how the machine is reached.
//
// A command changes the machine and is answered by a Reply. A question changes
// nothing of it; what answers it stands beside it.

// kinds lists every message.
var kinds = map[string]func() any{
	// Commands.
	"start": fresh[Start], "pause": fresh[Pause], "step": fresh[Step], "speed": fresh[Speed], "warm": fresh[Warm],
	"back": fresh[Back], "reset": fresh[Reset], "restore": fresh[Restore], "undo": fresh[Undo], "seed": fresh[Seed],
	"crop": fresh[Crop], "situation": fresh[Situation], "set": fresh[Set], "nudge": fresh[Nudge], "units": fresh[Units], "price": fresh[Price],
	"open.link": fresh[OpenLink], "open.file": fresh[OpenFile], "comeback": fresh[ComeBack],
	"ride": fresh[Ride], "ride-to": fresh[RideTo], "ride-off": fresh[RideOff],
	// Commands about two machines.
	"pair.begin": fresh[PairBegin], "pair.fork": fresh[PairFork], "pair.end": fresh[PairEnd], "pair.swap": fresh[PairSwap], "pair.copy": fresh[PairCopy],
	"second.set": fresh[SecondSet], "second.nudge": fresh[SecondNudge],
	// Commands about how the machine is looked at.
	"look": fresh[Look], "names": fresh[NameParts], "move": fresh[Move], "grasp": fresh[Grasp],
	// Questions.
	"describe": fresh[AskDescription], "setup": fresh[AskSetup], "second": fresh[AskSecond], "state": fresh[AskState], "readings": fresh[AskReadings],
	"chart": fresh[AskChart], "curve": fresh[AskCurve], "map": fresh[AskMap], "touch": fresh[Touch],
	"link": fresh[AskLink], "standing": fresh[AskStanding], "file": fresh[AskFile], "run": fresh[AskRun], "csv": fresh[AskCSV], "picture": fresh[Still],
}

func fresh[T any]() any { return new(T) }

// Commands to one machine, or to both where there are two.
type (
	// Start has time pass.
	Start struct{}
	// Pause has it stand still.
	Pause struct{}
	// Step makes ticks at once, one if none is named.
	Step struct {
		Ticks float64 `json:"value"`
	}
	// Speed is simulated over real time.
	Speed struct {
		Times float64 `json:"value"`
	}
	// Warm fills the machine.
	Warm struct{}
	// Back goes ten seconds back.
	Back struct{}
	// Reset puts the machine back to the edge of the field.
	Reset struct{}
	// Restore brings settings and conditions back to the start.
	Restore struct{}
	// Undo goes back to before a line of the log.
	Undo struct {
		ID int `json:"value"`
	}
	// Seed begins anew with another run of chance.
	Seed struct {
		Text string `json:"text"`
	}
	// Crop begins anew with a crop.
	Crop struct {
		Name string `json:"name"`
	}
	// Situation begins anew with a situation, or with the crop alone if it has no
	// name.
	Situation struct {
		Name string `json:"name"`
	}
	// Set puts a setting or condition to what was typed.
	Set struct {
		Name string `json:"name"`
		Text string `json:"text"`
	}
	// Nudge moves one to its next step.
	Nudge struct {
		Name string `json:"name"`
		Up   bool   `json:"up"`
	}
	// Units chooses the system of units.
	Units struct {
		Name string `json:"name"`
	}
	// Price is that of a unit in which grain is sold.
	Price struct {
		Price float64 `json:"value"`
	}
	// OpenLink opens what a link holds.
	OpenLink struct {
		Text string `json:"text"`
	}
	// OpenFile opens what a file holds.
	OpenFile struct {
		Text string `json:"text"`
	}
	// Ride follows a kernel with a story.
	Ride struct {
		Name string `json:"name"`
	}
	// RideTo shows it where it was at a tick.
	RideTo struct {
		Tick float64 `json:"value"`
	}
	// RideOff lets it go.
	RideOff struct{}
)

// Commands about two machines.
type (
	// PairBegin puts a second machine beside the first, both at the edge of the field.
	PairBegin struct{}
	// PairFork puts one beside it that stands as the first does now.
	PairFork struct{}
	// PairEnd takes it away.
	PairEnd struct{}
	// PairSwap changes their places.
	PairSwap struct{}
	// PairCopy sets one as the other.
	PairCopy struct {
		To string `json:"name"` // first or second
	}
	// SecondSet is Set for the second machine.
	SecondSet Set
	// SecondNudge is Nudge for the second machine.
	SecondNudge Nudge
)

// Commands about how the machine is looked at.
type (
	// Look is how it is drawn.
	Look view.Look
	// NameParts names the parts in the language of the page.
	NameParts struct {
		Words *render.Words `json:"words"`
	}
	// Move moves the view.
	Move view.Move
	// ComeBack brings a machine that had to start anew to how the one before stood.
	ComeBack Standing
	// Grasp follows the kernel at a spot of the picture.
	Grasp view.Spot
)

// Questions, and what answers them.
type (
	AskDescription struct{} // Description
	AskSetup       struct{} // Setup
	AskSecond      struct{} // Setup of the second machine, or null
	AskState       struct{} // State
	AskReadings    struct{} // Readings
	AskChart       struct { // Chart
		After float64 `json:"after"` // s
	}
	AskCurve struct { // curve.Curve, or null
		Name string `json:"name"`
	}
	AskMap      struct{}  // view.Map
	Touch       view.Spot // view.Touched
	AskLink     struct{}  // the fragment of a link, a string
	AskStanding struct{}  // Standing
	AskFile     struct{}  // the text of a file
	AskRun      struct {  // that of the file of a run; empty where it cannot be kept
		Second bool `json:"second"`
	}
	AskCSV struct{} // that of a table
)

// Reply answers a command. Field and Error say what was wrong with it, in
// English, for programs.
type Reply struct {
	Error string         `json:"error,omitempty"`
	Field string         `json:"field,omitempty"`
	Say   *speak.Message `json:"say,omitempty"` // the same for the user
	Setup *Setup         `json:"setup,omitempty"`
}

// command is what one machine can be told.
type command interface{ do(*Session) error }

func (Start) do(s *Session) error       { s.run.Running = true; return nil }
func (Pause) do(s *Session) error       { s.run.Running = false; return nil }
func (c Step) do(s *Session) error      { return s.team().Steps(c.Ticks) }
func (c Speed) do(s *Session) error     { return s.run.SetSpeed(c.Times) }
func (Warm) do(s *Session) error        { s.run.WarmUp(runner.WarmTicks); return nil }
func (Back) do(s *Session) error        { s.run.Back(s.run.Earlier()); return nil }
func (Reset) do(s *Session) error       { return s.run.Again(s.run.Machine.Setup().Seed) }
func (Restore) do(s *Session) error     { return s.run.Restore() }
func (c Undo) do(s *Session) error      { return s.run.Undo(c.ID) }
func (c Seed) do(s *Session) error      { return s.setSeed(c.Text) }
func (c Crop) do(s *Session) error      { return s.begun(s.run.Crop(c.Name)) }
func (c Situation) do(s *Session) error { return s.begun(s.run.Situation(c.Name)) }
func (c Set) do(s *Session) error       { return s.set(c.Name, c.Text) }
func (c Nudge) do(s *Session) error     { return s.nudge(c.Name, c.Up) }
func (c Units) do(s *Session) error     { return s.setUnits(c.Name) }
func (c Price) do(s *Session) error     { return s.setPrice(c.Price) }
func (c OpenLink) do(s *Session) error  { return s.openLink(c.Text) }
func (c OpenFile) do(s *Session) error  { return s.openFile(c.Text) }
func (c Ride) do(s *Session) error      { return s.ride.Fate(c.Name) }
func (c RideTo) do(s *Session) error    { return s.rideTo(c.Tick) }
func (RideOff) do(s *Session) error     { s.ride.Off(); return nil }

// read reads a message.
func read(text string) (any, error) {
	var head struct {
		Do string `json:"do"`
	}
	if err := json.Unmarshal([]byte(text), &head); err != nil {
		return nil, fmt.Errorf("the message is not understood: %w", err)
	}
	kind, known := kinds[head.Do]
	if !known {
		return nil, fmt.Errorf("no message is called %q", head.Do)
	}
	var fields map[string]json.RawMessage
	if err := json.Unmarshal([]byte(text), &fields); err != nil {
		return nil, fmt.Errorf("the message is not understood: %w", err)
	}
	delete(fields, "do")
	rest, err := json.Marshal(fields)
	if err != nil {
		return nil, err
	}
	m := kind()
	d := json.NewDecoder(bytes.NewReader(rest))
	d.DisallowUnknownFields()
	if err := d.Decode(m); err != nil {
		return nil, fmt.Errorf("the message %q is not understood: %w", head.Do, err)
	}
	return m, nil
}

// refusals of fields that are no settings, in words.
var refusals = map[string]string{"story": "ride.none", "seed": "wrong.seed", "price": "wrong.price"}

// refusal says what was wrong with a command.
func (s *Session) refusal(err error) Reply {
	r := Reply{Error: err.Error(), Setup: s.Setup(), Say: speak.Say("wrong", speak.With{"why": err.Error()})}
	var bad *setup.Error
	var kept *keep.Error
	var none *nothing
	switch {
	case errors.As(err, &kept):
		r.Say = s.fault(kept)
	case errors.As(err, &none):
		r.Say = none.words()
	}
	if !errors.As(err, &bad) {
		return r
	}
	r.Field, r.Error = bad.Field, "It must be "+bad.Want+"."
	r.Say = speak.Say("wrong", speak.With{"why": r.Error})
	if f := setup.Find(bad.Field); f != nil && !f.Switch() {
		c := controls.Of(f, &s.run.Start, &s.run.Start, s.system)
		r.Say = speak.Say("wrong.range", speak.With{"from": speak.Q{V: &c.From, D: c.Digits, Parts: c.Parts}, "to": speak.Q{V: &c.To, Unit: c.Unit, D: c.Digits, Parts: c.Parts}})
	}
	if key, is := refusals[bad.Field]; is {
		r.Say = speak.Say(key)
	}
	return r
}

// Kinds names every message.
func Kinds() (list []string) {
	for name := range kinds {
		list = append(list, name)
	}
	slices.Sort(list)
	return list
}

func encode(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err) // the types here always encode
	}
	return string(b)
}
