package forecast_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
)

// Run and forecast tell the same power, part by part: within 6 %, or 0.6 kW
// where a part takes little.
func TestPowerAgreesWithRuns(t *testing.T) {
	for name, edit := range map[string]func(*setup.Setup){
		"wheat":    func(*setup.Setup) {},
		"corn":     func(s *setup.Setup) { s.Settings.Chopper = false },
		"soybeans": func(s *setup.Setup) { s.Conditions.ForeSlope, s.Settings.Unload = 9, true },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, err := setup.Default(name)
			require.NoError(t, err)
			edit(&s)
			f, err := forecast.Report(s)
			require.NoError(t, err)
			_, r, err := trial.Run(s, trial.Plan{Warmup: 40, Seconds: 20}, nil)
			require.NoError(t, err)
			for part, of := range map[string]func(*readout.Power) *float64{
				"cylinder": func(p *readout.Power) *float64 { return p.Cylinder }, "walkers": func(p *readout.Power) *float64 { return p.Walkers },
				"shoe": func(p *readout.Power) *float64 { return p.Shoe }, "fan": func(p *readout.Power) *float64 { return p.Fan },
				"chopper": func(p *readout.Power) *float64 { return p.Chopper }, "header": func(p *readout.Power) *float64 { return p.Header },
				"unloading": func(p *readout.Power) *float64 { return p.Unloading }, "driving": func(p *readout.Power) *float64 { return p.Driving },
				"all": func(p *readout.Power) *float64 { return p.Total },
			} {
				run, told := *of(&r.Power), *of(&f.Power)
				require.InDelta(t, run, told, max(0.6, 0.06*run), part)
			}
		})
	}
}
