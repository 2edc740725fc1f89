package rules
import ("testing";"fmt";"riddle/sim/crop";"riddle/sim/setup";"riddle/sim/forecast";"riddle/sim/fault";"riddle/sim/thresh")
func v(p *float64) float64 { if p==nil {return -1}; return *p }
func TestZZ(t *testing.T) {
	for _, n := range crop.Names() {
		s,_ := setup.Default(n)
		for _, f := range []string{"","concave-blocked:0.25","concave-blocked:0.5","concave-blocked:0.75","concave-blocked:1","concave-blocked:1:front","concave-blocked:1:rear","concave-blocked:1:left","walker-slow:0.2","walker-slow:1"} {
			set := fault.Set{}
			h := 0.0
			if f != "" { g, err := fault.Parse(f); if err!=nil {t.Fatal(err)}; set.Add(g); st := set.State(); h = float64(thresh.Held(crop.Find(n), &st.Grate)) }
			r, err := forecast.Report(s, forecast.WithFaults(set))
			if err != nil { t.Fatal(err) }
			fmt.Printf("%-9s %-24s %s H%.3f unth %.4f walk %.3f crk %.3f up %.3f thr %.2f ret %.3f heads %.4f kw %.2f shoe %.3f sep %.1f shoeload %.3f wkw %.2f\n", n, f, r.State, h, v(r.Loss.Unthreshed), v(r.Loss.Walker), v(r.Tank.Broken), v(r.Concave.BrokenUp), v(r.Concave.MOGThrough), v(r.Returns.OfGrain), v(Heads.Get(&r)), v(r.Cylinder.PowerKW), v(r.Loss.Shoe), v(r.Concave.Separated), v(r.Loads.Shoe), v(r.Power.Walkers))
		}
	}
}
