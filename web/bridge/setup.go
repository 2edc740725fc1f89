package bridge

import (
	"fmt"
	"math"

	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/web/controls"
	"riddle/web/runner"
	"riddle/web/speak"
	"riddle/web/view"
)

// Setup is what the page shows of a setup.
type Setup struct {
	Crop     string             `json:"crop"`
	Scene    *runner.Scene      `json:"situation"`
	Seed     string             `json:"seed"`
	Units    string             `json:"units"`
	Caption  *speak.Message     `json:"caption"`
	Weather  *speak.Message     `json:"weather"` // of the situation
	Invite   Invite             `json:"invite"`
	Slice    *speak.Message     `json:"slice"`
	Controls []controls.Control `json:"controls"`
	Kinds    []view.Kind        `json:"kinds"`
	Parts    []view.PartChoice  `json:"parts"` // in the order of the crop
	Speed    float64            `json:"speed"`
	Revision int                `json:"revision"`
}

// Invite is to a first change of a setting.
type Invite struct {
	Text  *speak.Message `json:"text"`
	Field string         `json:"field"`
}

// Setup returns what the page shows of the present setup.
func (s *Session) Setup() *Setup {
	now := s.run.Machine.Setup()
	c := crop.Find(now.Crop)
	return &Setup{
		Crop: now.Crop, Scene: s.run.Scene, Seed: fmt.Sprint(now.Seed), Units: string(s.system), Caption: s.words().caption(),
		Slice:   speak.Say("slice", speak.With{"mm": speak.Plain(c.Slice, 1)}),
		Weather: s.words().weather(), Invite: s.words().invite(),
		Controls: controls.List(&now, &s.run.Start, s.system), Kinds: view.Legend(c), Parts: view.Parts(c), Speed: s.run.Speed, Revision: s.run.Revision,
	}
}

// The page invites to a first change whose effect can be seen and measured in
// any crop: the fan half as fast again as it stands. Chosen here.
const (
	inviting    = "fan-speed"
	inviteTimes = 1.5
)

func (w wording) invite() Invite {
	f := setup.Find(inviting)
	to := math.Round(f.Get(&w.run.Start)*inviteTimes/f.Step) * f.Step
	return Invite{speak.Say("invite", speak.With{"to": w.units.Value(f, min(to, f.To))}), f.Name}
}

// caption names the plate.
func (w wording) caption() *speak.Message {
	x := w.run.Scene
	if x == nil {
		return speak.Say("caption.practice", speak.With{"crop": speak.Say("crop." + w.run.Machine.Crop().Name)})
	}
	return speak.Say("caption.situation", speak.With{"title": speak.Say("situation." + x.Name), "place": x.Farm + ", " + x.Field})
}
