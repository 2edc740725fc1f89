package bridge

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
	keep "riddle/web/share"
)

// Command is what the page asks for.
type Command struct {
	Do    string  `json:"do"`
	Name  string  `json:"name"`
	Text  string  `json:"text"`
	Value float64 `json:"value"`
}

// Reply answers a Command. Field and Error say what was wrong with it, in
// English, for programs.
type Reply struct {
	Error string   `json:"error,omitempty"`
	Field string   `json:"field,omitempty"`
	Say   *Message `json:"say,omitempty"` // the same for the user
	Setup *Setup   `json:"setup,omitempty"`
}

// Setup is what the page shows of a setup.
type Setup struct {
	Crop     string       `json:"crop"`
	Scene    *situation   `json:"situation"`
	Seed     string       `json:"seed"`
	Units    string       `json:"units"`
	Caption  *Message     `json:"caption"`
	Weather  *Message     `json:"weather"` // of the situation
	Invite   *Message     `json:"invite"`  // to a first change
	Slice    *Message     `json:"slice"`
	Controls []Control    `json:"controls"`
	Kinds    []Kind       `json:"kinds"`
	Parts    []PartChoice `json:"parts"` // in the order of the crop
	Speed    float64      `json:"speed"`
	Revision int          `json:"revision"`
}

// Do carries out a command given in JSON and answers in JSON.
func (s *Session) Do(text string) string {
	var c Command
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		return encode(Reply{Error: "the command is not understood: " + err.Error()})
	}
	before := s.revision
	if err := s.do(c); err != nil {
		return encode(s.refusal(err))
	}
	if s.revision != before {
		return encode(Reply{Setup: s.Setup()})
	}
	return encode(Reply{})
}

// refusal says what was wrong with a command.
func (s *Session) refusal(err error) Reply {
	r := Reply{Error: err.Error(), Setup: s.Setup(), Say: say("wrong", With{"why": err.Error()})}
	var bad *setup.Error
	var kept *keep.Error
	if errors.As(err, &kept) {
		r.Say = s.fault(kept)
	}
	if !errors.As(err, &bad) {
		return r
	}
	r.Field, r.Error = bad.Field, "Wanted is "+bad.Want+"."
	r.Say = say("wrong", With{"why": r.Error})
	if f := setup.Find(bad.Field); f != nil && !f.Switch() {
		c := control(f, &s.start, &s.start, s.units)
		r.Say = say("wrong.range", With{"from": Q{V: &c.From, Unit: c.Unit, D: c.Digits, Parts: c.Parts}, "to": Q{V: &c.To, Unit: c.Unit, D: c.Digits, Parts: c.Parts}})
	}
	if bad.Field == "story" {
		r.Say = say("ride.none")
	}
	if bad.Field == "seed" {
		r.Say = say("wrong.seed")
	}
	if bad.Field == "price" {
		r.Say = say("wrong.price")
	}
	return r
}

func (s *Session) do(c Command) error {
	switch c.Do {
	case "start":
		s.running = true
	case "pause":
		s.running = false
	case "step":
		return s.steps(c.Value)
	case "reset":
		return s.again(s.machine.Setup().Seed)
	case "restore":
		return s.restore()
	case "back":
		s.back(s.earlier())
	case "open.link":
		return s.openLink(c.Text)
	case "open.file":
		return s.openFile(c.Text)
	case "warm":
		s.warmUp(warmTicks)
	case "units":
		return s.setUnits(c.Name)
	case "price":
		return s.setPrice(c.Value)
	case "undo":
		return s.undo(int(c.Value))
	case "speed":
		return s.setSpeed(c.Value)
	case "crop":
		return s.setCrop(c.Name)
	case "situation":
		return s.setSituation(c.Name)
	case "set":
		return s.set(c.Name, c.Text)
	case "ride":
		return s.rideFate(c.Name)
	case "ride-to":
		return s.rideTo(c.Value)
	case "ride-off":
		s.rideOff()
	case "seed":
		return s.setSeed(c.Text)
	default:
		return fmt.Errorf("no command is called %q", c.Do)
	}
	return nil
}

// mostSteps bounds what one command may step: ten minutes of simulated time.
const mostSteps = 600 * sim.TickHz

// steps makes a number of ticks at once, one if none is named.
func (s *Session) steps(n float64) error {
	count, err := stepsOf(n)
	if err == nil {
		s.ticks(count, func() bool { return false })
	}
	return err
}

// stepsOf reads a number of ticks, one if none is named.
func stepsOf(n float64) (int, error) {
	if n == 0 {
		n = 1
	}
	if !(n >= 1 && n <= mostSteps) {
		return 0, &setup.Error{Field: "step", Value: trim(n), Want: fmt.Sprintf("1 to %d ticks", mostSteps)}
	}
	return int(n), nil
}

func (s *Session) setSpeed(v float64) error {
	if !(v >= Speeds[0] && v <= Speeds[len(Speeds)-1]) {
		return &setup.Error{Field: "speed", Value: trim(v), Want: trim(Speeds[0]) + " to " + trim(Speeds[len(Speeds)-1]) + " times real time"}
	}
	s.speed, s.due, s.pace.value = v, 0, v
	return nil
}

func (s *Session) setCrop(name string) error {
	start, err := setup.Default(name)
	if err != nil {
		return err
	}
	if s.machine != nil {
		start.Seed = s.machine.Setup().Seed
	}
	return s.from(start, nil)
}

func (s *Session) setSituation(name string) error {
	if name == "" {
		return s.setCrop(s.machine.Setup().Crop)
	}
	scene := findSituation(name)
	if scene == nil {
		return &setup.Error{Field: "situation", Value: name, Want: "one of the list"}
	}
	start, err := scene.setup()
	if err != nil {
		return err
	}
	return s.from(start, scene)
}

func (s *Session) set(name, text string) error {
	f := setup.Find(name)
	if f == nil {
		return &setup.Error{Field: name, Value: text, Want: "a setting or condition of the machine"}
	}
	to := s.machine.Setup()
	if _, err := quantity.Number(text); err == nil {
		text += " " + s.units.Scale(f.Unit, to.Crop).Unit
	}
	from := f.Get(&to)
	if err := f.Read(&to, strings.TrimSpace(text)); err != nil {
		return err
	}
	if f.Get(&to) == from {
		return nil
	}
	return s.changeTo(to)
}

func (s *Session) setUnits(name string) error {
	if !slices.Contains(unitSystems, quantity.System(name)) {
		return &setup.Error{Field: "units", Value: name, Want: fmt.Sprint("one of ", unitSystems)}
	}
	s.units = quantity.System(name)
	s.changedSetup()
	return nil
}

func (s *Session) setSeed(text string) error {
	var seed uint64
	if _, err := fmt.Sscanf(text, "%d", &seed); err != nil || fmt.Sprint(seed) != text {
		return &setup.Error{Field: "seed", Value: text, Want: "a whole number from 0 to 18446744073709551615"}
	}
	return s.again(seed)
}

// Setup returns what the page shows of the present setup.
func (s *Session) Setup() *Setup {
	now := s.machine.Setup()
	set := &now
	c := crop.Find(set.Crop)
	return &Setup{
		Crop: set.Crop, Scene: s.scene, Seed: fmt.Sprint(set.Seed), Units: string(s.units), Caption: s.caption(),
		Slice:   say("slice", With{"mm": plain(c.Slice, 1)}),
		Weather: s.weather(), Invite: s.invite(),
		Controls: controls(set, &s.start, s.units), Kinds: legend(c), Parts: partChoices(c), Speed: s.speed, Revision: s.revision,
	}
}

// The page invites to a first change whose effect can be seen and measured in
// any crop: the fan half as fast again as it stands. Chosen here.
const (
	inviting    = "fan-speed"
	inviteTimes = 1.5
)

func (s *Session) invite() *Message {
	fan := setup.Find(inviting)
	to := math.Round(fan.Get(&s.start)*inviteTimes/fan.Step) * fan.Step
	return say("invite", With{"to": s.valueOf(fan, min(to, fan.To))})
}

// caption names the plate.
func (s *Session) caption() *Message {
	if s.scene == nil {
		return say("caption.practice", With{"crop": say("crop." + s.machine.Setup().Crop)})
	}
	return say("caption.situation", With{"title": say("situation." + s.scene.Name), "place": s.scene.Farm + ", " + s.scene.Field})
}

func encode(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err) // the types here always encode
	}
	return string(b)
}
