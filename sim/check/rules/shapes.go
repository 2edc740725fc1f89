package rules

import (
	"fmt"

	"riddle/sim/ask/study"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Shape is what a response curve must look like in every crop.
type Shape struct {
	ID, Says string
	Field    string
	From, To float64 // as factors on the starting setting, within the legal range
	Points   int

	holds func(c study.Curve, start float64) string // what is wrong, or nothing
}

// Shapes lists the shapes that the trade knows. That shoe loss has one minimum
// over the fan is published (Craessaerts et al. 2010, Biosystems Engineering
// 106:97), that losses are convex in feed too (Nyborg 1967, MSc thesis,
// Michigan State University), and that damaged and unthreshed grain together
// have an optimum of cylinder speed (Harrison 1975, Canadian Agricultural
// Engineering; read as an abstract). The rest is common practice.
func Shapes() []Shape {
	return []Shape{
		{"SH-fan", "shoe loss has one minimum over the fan, within 0.85 to 1.15 of the start", "fan-speed", 0.6, 1.5, 19, oneMinimum(study.Shoe, 0.85, 1.15)},
		{"SH-feed", "walker, shoe and processing loss are convex in feed", "ground-speed", 0.5, 1.55, 8, convex(study.Walker, study.Shoe, study.Processing)},
		{"SH-upper", "opening the upper sieve: shoe loss falls, trash rises", "upper-sieve", 0.75, 1.35, 7, both(monotone(study.Shoe, -1), monotone(study.Foreign, 1))},
		{"SH-lower", "opening the lower sieve: returns fall, trash rises", "lower-sieve", 0.75, 1.35, 7, both(monotone(study.Returned, -1), monotone(study.Foreign, 1))},
		{"SH-cylinder", "cylinder speed: unthreshed falls, broken rises, they cross once and their sum has one minimum", "cylinder-speed", 0.6, 1.3, 12,
			both(monotone(study.Unthreshed, -1), monotone(study.Broken, 1), crossing, oneMinimum(study.UnthreshedAndBroken, 0, 9))},
		{"SH-clearance", "clearance: unthreshed rises, broken falls, they cross once and their sum has one minimum", "concave-clearance", 0.4, 5, 16,
			both(monotone(study.Unthreshed, 1), monotone(study.Broken, -1), crossing, oneMinimum(study.UnthreshedAndBroken, 0, 9))},
	}
}

// Sweep returns the sweep that shows the shape in a crop.
func (s Shape) Sweep(name string) (study.Sweep, error) {
	base, err := setup.Default(name)
	if err != nil {
		return study.Sweep{}, err
	}
	f := setup.Find(s.Field)
	start := f.Get(&base)
	w := study.Sweep{Base: base, Field: f, From: max(s.From*start, f.From), To: min(s.To*start, f.To), Points: s.Points}
	return w, w.Validate()
}

// Check asks a machine for the curve and returns what is wrong with its shape,
// or nothing.
func (s Shape) Check(read study.Reader, name string) (wrong string, curve study.Curve, err error) {
	w, err := s.Sweep(name)
	if err != nil {
		return "", curve, err
	}
	if curve, err = w.Run(read); err != nil {
		return "", curve, err
	}
	return s.holds(curve, w.Field.Get(&w.Base)), curve, nil
}

// Exempt returns why the shape does not hold in a crop, or nothing.
func (s Shape) Exempt(c *crop.Crop) string { return unmet(s.ID, c.Name) }

// values takes a quantity out of a curve; the machine may plug on the way.
func values(c study.Curve, q study.Quantity) ([]float64, string) {
	list := make([]float64, len(c.Points))
	for i := range c.Points {
		v := q.Get(&c.Points[i].Report)
		if v == nil {
			return nil, fmt.Sprintf("%s: nothing to read at %g (%s)", q.Name, c.Points[i].Value, c.Points[i].Report.State)
		}
		list[i] = *v
	}
	return list, ""
}

// flat is the change of a reading, % points, that is no change. Chosen.
const flat = 1e-4

func monotone(q study.Quantity, way float64) func(study.Curve, float64) string {
	return func(c study.Curve, _ float64) string {
		v, wrong := values(c, q)
		for i := 1; i < len(v); i++ {
			if float64((v[i]-v[i-1])*way) < -flat {
				return fmt.Sprintf("%s goes from %.4f to %.4f between %.4g and %.4g", q.Name, v[i-1], v[i], c.Points[i-1].Value, c.Points[i].Value)
			}
		}
		return wrong
	}
}

func oneMinimum(q study.Quantity, low, high float64) func(study.Curve, float64) string {
	return func(c study.Curve, start float64) string {
		v, wrong := values(c, q)
		if wrong != "" {
			return wrong
		}
		at, found := 0, []float64{}
		for i := 1; i < len(v)-1; i++ {
			if v[i] < v[i-1]-flat/10 && v[i] <= v[i+1] {
				found, at = append(found, c.Points[i].Value), i
			}
		}
		share := c.Points[at].Value / start
		switch {
		case len(found) != 1:
			return fmt.Sprintf("%s has %d minima within, at %.4g", q.Name, len(found), found)
		case share < low || share > high:
			return fmt.Sprintf("%s is least at %.4g, %.2f of the start", q.Name, c.Points[at].Value, share)
		}
		return ""
	}
}

// bend is the second difference, % points, that is no bend: what is left of
// where the loop of the returns is taken as settled. Chosen.
const bend = 0.005

// convex holds second differences of evenly spaced values above zero.
func convex(list ...study.Quantity) func(study.Curve, float64) string {
	return func(c study.Curve, _ float64) string {
		for _, q := range list {
			v, wrong := values(c, q)
			if wrong != "" {
				return wrong
			}
			for i := 1; i < len(v)-1; i++ {
				if d := v[i+1] - 2*v[i] + v[i-1]; d < -bend {
					return fmt.Sprintf("%s bends down by %.4f at %.4g", q.Name, d, c.Points[i].Value)
				}
			}
		}
		return ""
	}
}

// crossing has unthreshed and broken change places exactly once.
func crossing(c study.Curve, _ float64) string {
	u, wrong := values(c, study.Unthreshed)
	b, alike := values(c, study.Broken)
	if wrong+alike != "" {
		return wrong + alike
	}
	n := 0
	for i := 1; i < len(u); i++ {
		if (u[i] > b[i]) != (u[i-1] > b[i-1]) {
			n++
		}
	}
	if n != 1 {
		return fmt.Sprintf("unthreshed and broken cross %d times: %.2f and %.2f at %.4g, %.2f and %.2f at %.4g", n,
			u[0], b[0], c.Points[0].Value, u[len(u)-1], b[len(b)-1], c.Points[len(u)-1].Value)
	}
	return ""
}

func both(list ...func(study.Curve, float64) string) func(study.Curve, float64) string {
	return func(c study.Curve, start float64) string {
		for _, holds := range list {
			if wrong := holds(c, start); wrong != "" {
				return wrong
			}
		}
		return ""
	}
}
