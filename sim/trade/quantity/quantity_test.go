package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		crop string
		want float64
	}{
		{"860", Rotation, "", 860}, {"860rpm", Rotation, "", 860}, {"860 1/min", Rotation, "", 860},
		{"12mm", Opening, "", 12}, {"1/2in", Opening, "", 12.7}, {"1 3/8 in", Opening, "", 34.925}, {"3/8 in", Opening, "", 9.525}, {"1 1/4in", Opening, "", 31.75}, {"1-1/4 in", Opening, "", 31.75}, {"3 / 8\"", Opening, "", 9.525},
		{"3.1mph", Speed, "", 4.9889664}, // 1 mile = 1.609344 km: international agreement 1959
		{"15%", Share, "", 15}, {"4t/ha", Yield, "", 4}, {"-3deg", Slope, "", -3}, {"0.9", Ratio, "", 0.9},
		{"1bu/ac", Yield, "wheat", 0.067251}, // definition of bushel, pound and acre: 67.251 kg/ha
		{"1bu/ac", Yield, "corn", 0.062768}, {"1 bu/ac", Yield, "canola", 0.056043}, {"1bu/ac", Yield, "oats", 0.035867},
		{"on", OnOff, "", 1}, {"OFF", OnOff, "", 0}, {"2ft", Width, "", 0.6096}, {"1e2", Rotation, "", 100},
	} {
		got, err := Parse(c.text, c.dim, c.crop)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.want, got, 1e-6, c.text)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
	}{
		{"", Rotation}, {"fast", Rotation}, {"NaN", Rotation}, {"Inf", Rotation}, {"12 mm", Rotation}, {"5mph", Opening},
		{"1/0in", Opening}, {"3 bananas", Share}, {"maybe", OnOff}, {"60bu/ac", Yield}, {"1/in", Opening}, {"in", Opening}, {"--3", Slope},
	} {
		_, err := Parse(c.text, c.dim, "rye")
		require.Error(t, err, c.text)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"860rpm", "1/2in", "60bu/ac", "", "1 3/8 in", "-", "1/min"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, d := range []Dimension{Speed, Rotation, Opening, Yield, Share, OnOff, Ratio} {
			if v, err := Parse(s, d, "wheat"); err == nil && v != v {
				t.Fatalf("%q gave no number without an error", s)
			}
		}
	})
}
