package weather

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// fair is a clear late-summer day: 11 to 27 °C, 40 % in the afternoon.
func fair() *Day {
	return &Day{Low: 11, High: 27, Humidity: 40, Clear: 1, Sunrise: 6, Sunset: 20}
}

// Saturation vapour pressure after Allen et al. 1998, FAO 56, annex 2, table
// 2.3, kPa.
func TestSaturation(t *testing.T) {
	for temp, want := range map[float64]float64{1: 0.657, 10: 1.228, 15: 1.705, 20: 2.338, 25: 3.168, 30: 4.243, 40: 7.376} {
		require.InDelta(t, want, Saturation(temp), 0.002, "%v °C", temp)
	}
}

// A psychrometric chart's round figure: 25 °C and 50 % has its dew point at
// 13.9 °C.
func TestDewPoint(t *testing.T) {
	require.InDelta(t, 13.9, Air{25, 0.5}.DewPoint(), 0.1)
	require.InDelta(t, 18, Air{18, 1}.DewPoint(), 1e-9)
}

func TestDayRunsBetweenItsEnds(t *testing.T) {
	d := fair()
	require.InDelta(t, 27, d.At(15).T, 1e-9)
	require.InDelta(t, 0.40, d.At(15).RH, 1e-9)
	require.InDelta(t, 11, d.At(3).T, 1e-9)
	require.Equal(t, d.At(7), d.At(31), "the day repeats")
	for h := 0.0; h < 24; h += 0.25 {
		a := d.At(h)
		require.True(t, a.T >= 11-1e-9 && a.T <= 27+1e-9 && a.RH > 0 && a.RH <= 1)
	}
	require.Greater(t, d.Surface(12), d.At(12).T, "in the sun the crop is warmer than the air")
	require.InDelta(t, d.At(1).T-skyCooling, d.Surface(1), 1e-9, "by night it is cooler")
}

func TestGivenHoursAreJoined(t *testing.T) {
	d := fair()
	d.Hours = []Hour{{6, 10, 90}, {14, 26, 50}, {22, 14, 80}}
	require.Equal(t, Air{10, 0.9}, d.At(6))
	require.InDelta(t, 18, d.At(10).T, 1e-9)
	require.InDelta(t, 0.70, d.At(10).RH, 1e-9)
	require.InDelta(t, 12, d.At(2).T, 1e-9, "half way from 22 to 6 over midnight")
}

func TestBadDaysAreNamed(t *testing.T) {
	for name, spoil := range map[string]func(*Day){
		"low": func(d *Day) { d.Low = -30 }, "high": func(d *Day) { d.High = 5 }, "humidity": func(d *Day) { d.Humidity = 0 },
		"clear": func(d *Day) { d.Clear = 2 }, "sunrise": func(d *Day) { d.Sunrise = 13 }, "hours": func(d *Day) { d.Hours = []Hour{{9, 10, 50}, {8, 10, 50}} },
	} {
		d := fair()
		require.NoError(t, d.Validate())
		spoil(d)
		require.ErrorContains(t, d.Validate(), name)
	}
}
