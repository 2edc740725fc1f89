package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/forecast"
	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// TestShapes holds the curves of every crop against the shapes of the trade,
// by the forecast.
func TestShapes(t *testing.T) {
	read := func(s setup.Setup) (readout.Report, error) { return forecast.Report(s) }
	for _, name := range crop.Names() {
		for _, s := range Shapes() {
			t.Run(s.ID+"/"+name, func(t *testing.T) {
				t.Parallel()
				wrong, _, err := s.Check(study.Reader(read), name)
				require.NoError(t, err)
				why := s.Exempt(crop.Find(name))
				switch {
				case wrong != "" && why == "":
					t.Errorf("%s: %s", s.Says, wrong)
				case wrong == "" && why != "":
					t.Errorf("it holds, and is listed as unmet: %s", why)
				}
			})
		}
	}
}
