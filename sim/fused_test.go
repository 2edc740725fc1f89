//go:build !js

package sim

import (
	"os"
	"os/exec"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// A compiler may round x*y+z once where the language lets it, and arm64 does;
// then the same run would end in other bits there. No law and no step may hold
// such an instruction. Readings and forecasts are made outside the step and are
// let off: they are held to ten digits, not to bits.
func TestNoFusedArithmeticInTheStep(t *testing.T) {
	packages := []string{"riddle/sim", "riddle/sim/num", "riddle/sim/stage/flow", "riddle/sim/trade/crop", "riddle/sim/stage/feed", "riddle/sim/stage/thresh",
		"riddle/sim/stage/straw", "riddle/sim/stage/shoe", "riddle/sim/stage/returns", "riddle/sim/stage/tank", "riddle/sim/stage/ground", "riddle/sim/stage/section", "riddle/sim/trade/weather", "riddle/sim/run/course"}
	goTool, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go command is not on the path")
	}
	cmd := exec.Command(goTool, append([]string{"build", "-gcflags=riddle/sim/...=-S"}, packages...)...)
	cmd.Env = append(os.Environ(), "GOARCH=arm64", "GOOS=linux", "CGO_ENABLED=0")
	listing, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", listing[:min(len(listing), 2000)])
	require.Contains(t, string(listing), "FMUL", "the listing holds arithmetic")
	fused := regexp.MustCompile(`\(([^()]*/sim/[^()]*:\d+)\)\s+(FN?M(?:ADD|SUB)[SD])`).FindAllStringSubmatch(string(listing), -1)
	for _, f := range fused {
		if !regexp.MustCompile(`/sim/(readout|trial)/|/expect[a-z_]*\.go:`).MatchString(f[1]) {
			t.Errorf("%s: %s", f[1], f[2])
		}
	}
}
