// Package controls is what there is to set, as the page shows it in its units:
// ranges, steps, where practice starts, and where on the page it stands. What a
// setting is, setup.Fields knows.
package controls

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// Control is a setting or condition as the page shows it, in the units that
// are chosen. Its words stand in the catalogue under field.NAME.
type Control struct {
	Name      string   `json:"name"`
	Unit      string   `json:"unit"`
	From      float64  `json:"from"`
	To        float64  `json:"to"`
	Step      float64  `json:"step"`
	Digits    int      `json:"digits"` // after the point
	Parts     int      `json:"parts"`  // of the unit, where it is read as a fraction, else 0
	Value     float64  `json:"value"`
	Held      string   `json:"held"`  // the value as the machine holds it, with its unit
	Text      string   `json:"text"`  // the value as a number field takes it
	Start     float64  `json:"start"` // where Reset brings it
	StartHeld string   `json:"startHeld"`
	Moved     bool     `json:"moved"` // it stands elsewhere than at the start
	Switch    bool     `json:"switch"`
	Condition bool     `json:"condition"`
	Has       bool     `json:"has"`   // the crop's header has it
	Usual     []Band   `json:"usual"` // where practice starts, or empty
	Part      string   `json:"part"`  // of the machine that it sets, or empty
	Zone      string   `json:"zone"`  // in which its work is best seen
	Stand     string   `json:"stand"` // the group on the page in which it stands
	Couples   []string `json:"couples"`

	most int // digits of a value that is not on a step
}

// Band is a range of values.
type Band struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// stands are the groups on the page of the settings that stand where their part
// is, by zone.
var stands = map[string]string{"tank": "tank-settings", "ground": "rear-settings"}

// stand returns the group on the page in which a control stands: under the
// machine, or where its part is.
func stand(f *setup.Field) string {
	if f.Condition {
		return "conditions"
	}
	if group, is := stands[f.Zone]; is {
		return group
	}
	return "settings"
}

// partOf names the part that a setting sets in the crop, or nothing.
func partOf(f *setup.Field, c *crop.Crop) string {
	for _, id := range f.Parts {
		if render.FindPart(id).On(c) {
			return id
		}
	}
	return ""
}

// List lists the settings in crop order, then the conditions.
func List(s, start *setup.Setup, units quantity.System) []Control {
	list := make([]Control, 0, len(setup.Fields))
	for _, f := range setup.InCropOrder() {
		list = append(list, Of(f, s, start, units))
	}
	return list
}

// Of shows a field.
func Of(f *setup.Field, s, start *setup.Setup, units quantity.System) Control {
	c := crop.Find(s.Crop)
	scale, notches := units.Scale(f.Unit, s.Crop), units.Notches(f.Unit, s.Crop, f.Step)
	out := Control{
		Name: f.Name, Unit: scale.Unit, From: scale.Shown(f.From), To: scale.Shown(f.To),
		Step: notches.Step, Digits: notches.Digits, Parts: notches.Parts,
		Value: scale.Shown(f.Get(s)), Held: held(f, f.Get(s)), Start: scale.Shown(f.Get(start)), StartHeld: held(f, f.Get(start)), Moved: f.Get(s) != f.Get(start), Switch: f.Switch(), Condition: f.Condition, Has: f.On(c),
		Usual: []Band{}, Zone: f.Zone, Stand: stand(f), Couples: f.Couples, Part: partOf(f, c),
	}
	out.most = out.Digits + 1
	if scale.Size != 1 {
		out.most = out.Digits
		out.From = math.Ceil(out.From/out.Step-1e-9) * out.Step
		out.To = math.Floor(out.To/out.Step+1e-9) * out.Step
	}
	out.Text = out.text(out.Value)
	if b, ok := f.Usual(c); ok {
		out.Usual = append(out.Usual, Band{scale.Shown(b.From), scale.Shown(b.To)})
	}
	return out
}

// held writes a value of a field with its unit and all its digits.
func held(f *setup.Field, v float64) string {
	text := strconv.FormatFloat(v, 'g', -1, 64)
	if f.Switch() || f.Unit == quantity.Ratio {
		return text
	}
	return text + " " + string(f.Unit)
}

// Next returns the next step of a field from where it stands, up or down, within
// what the page offers, as a number field takes it.
func Next(f *setup.Field, s *setup.Setup, units quantity.System, up bool) string {
	c := Of(f, s, s, units)
	const near = 1e-6 // of a step, by which a value that stands on one may miss it
	at := math.Ceil(c.Value/c.Step-near) - 1
	if up {
		at = math.Floor(c.Value/c.Step+near) + 1
	}
	return c.text(min(max(at*c.Step, c.From), c.To))
}

// text is a value as a number field takes it: a fraction where the unit is read so
// and the value is one, else as many digits as a step has, and more where the
// value lies on none.
func (c *Control) text(v float64) string {
	parts, most := c.Parts, c.most
	on := func(n float64) bool { return math.Abs(v*n-math.Round(v*n)) < 1e-6 }
	if parts > 0 && (!on(100) || on(float64(parts))) {
		if on(64) {
			parts = 64
		}
		return fraction(v, parts)
	}
	if on(math.Pow10(c.Digits + 1)) {
		most = c.Digits + 1
	}
	out := strconv.FormatFloat(v, 'f', most, 64)
	if strings.Contains(out, ".") {
		out = strings.TrimRight(strings.TrimRight(out, "0"), ".")
	}
	if out == "-0" {
		out = "0"
	}
	return out
}

// fraction writes a number to the nearest of so many parts, as 1 3/8.
func fraction(v float64, parts int) string {
	over, under := int(math.Round(math.Abs(v)*float64(parts))), parts
	for under > 1 && over%2 == 0 {
		over, under = over/2, under/2
	}
	whole, rest := over/under, over%under
	out := strconv.Itoa(whole)
	if rest > 0 {
		out = fmt.Sprintf("%d/%d", rest, under)
		if whole > 0 {
			out = fmt.Sprintf("%d %s", whole, out)
		}
	}
	if v < 0 && over > 0 {
		out = "−" + out
	}
	return out
}
