package weather

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The course that operators know: driest in the afternoon, tough again in the
// evening, wet at dawn, fit again by late morning. Wheat runs at 12 to 18 %
// (common practice of the harvest).
func TestAfternoonIsDryAndEveningTough(t *testing.T) {
	d := fair()
	d.Humidity = 50
	at := func(hour float64) (grain, straw float64) {
		grain, straw, ok := MoistureAt(hour, d, "wheat")
		require.True(t, ok)
		return grain, straw
	}
	_, dawn := at(6)
	_, late := at(11)
	_, noon := at(13)
	grainAfternoon, afternoon := at(16)
	_, dusk := at(22)
	grainDawn, _ := at(7)
	require.Greater(t, dawn, 20.0, "wet with dew at dawn")
	require.Less(t, late, 16.0, "dry again by late morning")
	require.Less(t, afternoon, noon, "driest in the afternoon")
	require.Greater(t, dusk, afternoon+1.5, "tough after sunset")
	require.Greater(t, grainDawn, grainAfternoon)
	require.True(t, grainAfternoon > 9 && grainDawn < 18, "grain between %v and %v", grainAfternoon, grainDawn)
}

// Dew: at most 0.06 mm in an hour and a few tenths in a night (Garratt & Segal
// 1988, abstract), none under an overcast or in dry air.
func TestDewIsOfThePublishedSize(t *testing.T) {
	night := func(d *Day) (most, fastest float64) {
		c := NewCrop(HabitOf("wheat"), d, 16, 12, 11, usualMOG)
		for h := 16.0; h < 30; h += stepHours {
			before := c.Film
			c.Advance(d, h, stepHours)
			most, fastest = max(most, c.Film), max(fastest, (c.Film-before)/stepHours)
		}
		return most, fastest
	}
	d := fair()
	d.Humidity = 50
	most, fastest := night(d)
	require.True(t, most > 0.1 && most <= 0.3, "%v mm", most)
	require.LessOrEqual(t, fastest, 0.065)
	require.Greater(t, fastest, 0.02)
	overcast, arid := fair(), fair()
	overcast.Clear, overcast.Low = 0, 20
	arid.Humidity = 12
	for _, d := range []*Day{overcast, arid} {
		most, _ := night(d)
		require.Zero(t, most)
	}
}

// Sunflower at 12 % in the morning is at 8 % that afternoon, and up to 3 points
// go in a day at 20 % humidity or less with wind (NDSU EB-25, 2007): wheat and
// soybeans that stand at 12 % lose 2 to 4.5 points from eight to eighteen. Corn at 20 % loses 0.4 to 0.8 in a fair day (extension
// advice).
func TestGrainDriesAtThePublishedPace(t *testing.T) {
	dry := &Day{Low: 16, High: 34, Humidity: 18, Clear: 1, Sunrise: 6, Sunset: 20}
	loses := func(crop string, d *Day, grain, from, to float64) float64 {
		c := NewCrop(HabitOf(crop), d, from, grain, 14, usualMOG)
		for h := from; h < to; h += stepHours {
			c.Advance(d, h, stepHours)
		}
		now, _ := c.Moistures()
		return grain - now
	}
	for _, crop := range []string{"wheat", "soybeans"} {
		lost := loses(crop, dry, 12, 8, 18)
		require.True(t, lost > 2 && lost < 4.5, "%s loses %v", crop, lost)
	}
	day := loses("corn", fair(), 20, 8, 32)
	require.True(t, day > 0.4 && day < 0.8, "corn loses %v in a day", day)
}

// A kernel in constant air has made 1 − 1/e of its way after one time
// constant: the closed form of the lag.
func TestLagIsFirstOrder(t *testing.T) {
	still := &Day{Low: 20, High: 20, Humidity: 50, Clear: 0, Sunrise: 6, Sunset: 20}
	h := HabitOf("wheat")
	c := NewCrop(h, still, 0, 20, 12, usualMOG)
	first, end := c.Grain, h.Grain.Moisture(20, 0.5)
	for i := range int(h.Kernels / stepHours) {
		c.Advance(still, float64(i)*stepHours, stepHours)
	}
	require.InDelta(t, end+(first-end)*0.367879, c.Grain, 1e-3)
}

// Green stems keep their own water: straw of rice at 40 % does not dry to hay
// in an afternoon.
func TestGreenStrawStaysGreen(t *testing.T) {
	d := fair()
	c := NewCrop(HabitOf("rice"), d, 12, 19, 40, usualMOG)
	_, straw := c.Moistures()
	require.InDelta(t, 40, straw, 1e-9)
	for h := 12.0; h < 17; h += stepHours {
		c.Advance(d, h, stepHours)
	}
	_, straw = c.Moistures()
	require.Greater(t, straw, 38.0)
}

// Every crop of the machine has its habit, and no other.
func TestEveryCropHasADay(t *testing.T) {
	require.Len(t, Habits, len(oil))
	for crop := range oil {
		grain, straw, ok := MoistureAt(15, fair(), crop)
		require.True(t, ok && grain > 4 && grain < 20 && straw > 5 && straw < 25, "%s: %v, %v", crop, grain, straw)
	}
	_, _, ok := MoistureAt(15, fair(), "rye")
	require.False(t, ok)
}

// A track reads what the crop does, without making anything.
func TestTrackFollowsTheCrop(t *testing.T) {
	d, h := fair(), HabitOf("wheat")
	track := NewTrack(NewCrop(h, d, 17, 13, 12, usualMOG), d, 17)
	c := NewCrop(h, d, 17, 13, 12, usualMOG)
	for i := range 60 {
		c.Advance(d, 17+float64(i)*stepHours, stepHours)
	}
	grain, straw := c.Moistures()
	g, s := track.At(5)
	require.InDelta(t, grain, g, 1e-9)
	require.InDelta(t, straw, s, 1e-9)
	require.Zero(t, testing.AllocsPerRun(100, func() { track.At(3.3) }))
	last, _ := track.At(1e9)
	require.Greater(t, last, 0.0)
}
