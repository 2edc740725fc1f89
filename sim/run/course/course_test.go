package course

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/trade/weather"
)

// tape is a machine that only drives.
type tape struct {
	set          setup.Setup
	way, seconds float64
	adjusted     int
}

func (m *tape) Setup() setup.Setup              { return m.set }
func (m *tape) Adjust(s setup.Setup) error      { m.set = s; m.adjusted++; return nil }
func (m *tape) Travelled() float64              { return m.way }
func (m *tape) Seconds() float64                { return m.seconds }
func (m *tape) drive(d *Progress, way float64)  { m.way = way; d.Step(m) }
func (m *tape) wait(d *Progress, hours float64) { m.seconds = hours * 3600; d.Step(m) }

func wheat(t *testing.T) setup.Setup {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	return s
}

func patch(edge float64) *Course {
	return &Course{Stretches: []Stretch{{
		Name: "green patch", From: 100, To: 160, Edge: edge,
		Values: []Value{{setup.Find("green-weeds"), 20}, {setup.Find("side-slope"), -6}, {setup.Find("straw-moisture"), 24}},
	}}}
}

// A condition changes where it is met: weeds as they come over the horizon
// 1.55 m ahead of the bar (−3.75 less −5.3), the slope when the front axle
// 3.70 m behind the bar stands on it (−0.05 less −3.75), moisture when the
// crop has been two seconds on its way at 5.2 km/h, 2.89 m behind.
func TestConditionsChangeWhereTheyAreMet(t *testing.T) {
	s := wheat(t)
	d, err := patch(0).On(s)
	require.NoError(t, err)
	m := &tape{set: s}
	at := func(way float64) setup.Conditions { m.drive(d, way); return m.set.Conditions }
	require.Zero(t, at(98.4).GreenWeeds)
	require.Equal(t, 20.0, at(98.5).GreenWeeds)
	require.Equal(t, 12.0, at(102.8).StrawMoisture)
	require.Equal(t, 24.0, at(102.95).StrawMoisture)
	require.Zero(t, at(103.6).SideSlope)
	require.Equal(t, -6.0, at(103.8).SideSlope)
	require.Zero(t, at(158.5).GreenWeeds)
	require.Equal(t, s.Conditions, at(200), "all as before behind it")
	require.Equal(t, s.Settings, m.set.Settings)
}

// A smooth edge goes over half before and half after its end, and is half done
// at it.
func TestEdges(t *testing.T) {
	s := patch(20).Stretches[0]
	require.Zero(t, s.share(90))
	require.InDelta(t, 0.5, s.share(100), 1e-12)
	require.Equal(t, 1.0, s.share(110))
	require.Equal(t, 1.0, s.share(150))
	require.InDelta(t, 0.5, s.share(160), 1e-12)
	require.Zero(t, s.share(170))
	last := 0.0
	for x := 90.0; x <= 110; x++ {
		require.GreaterOrEqual(t, s.share(x), last)
		last = s.share(x)
	}
}

func TestTheWayComesRound(t *testing.T) {
	c := patch(0)
	c.Round = 400
	s := wheat(t)
	d, err := c.On(s)
	require.NoError(t, err)
	m := &tape{set: s}
	for _, way := range []float64{120, 520, 4120} {
		m.drive(d, way)
		require.Equal(t, 20.0, m.set.Conditions.GreenWeeds)
		require.Equal(t, "green patch", d.Place(m))
	}
	m.drive(d, 700)
	require.Zero(t, m.set.Conditions.GreenWeeds)
	require.Empty(t, d.Place(m))
}

// What somebody sets stays set; the rest goes on.
func TestAHandWins(t *testing.T) {
	s := wheat(t)
	d, err := patch(0).On(s)
	require.NoError(t, err)
	m := &tape{set: s}
	m.drive(d, 50)
	m.set.Conditions.GreenWeeds = 3
	require.True(t, d.Moves("green-weeds"))
	d.Hold("green-weeds")
	require.False(t, d.Moves("green-weeds"))
	m.drive(d, 120)
	require.Equal(t, 3.0, m.set.Conditions.GreenWeeds)
	require.Equal(t, 24.0, m.set.Conditions.StrawMoisture)
	back := d.Back(m.set)
	require.Equal(t, 3.0, back.Conditions.GreenWeeds)
	require.Equal(t, 12.0, back.Conditions.StrawMoisture)
	again, err := d.Again(back)
	require.NoError(t, err)
	require.False(t, again.Moves("green-weeds"))
	require.True(t, again.Moves("straw-moisture"))
}

// evening is the weather of a clear night after a fair day.
func evening() *Course {
	return &Course{Day: &Day{Start: 18, Pace: 60, Day: weather.Day{Low: 11, High: 27, Humidity: 50, Clear: 1, Sunrise: 6, Sunset: 20}}}
}

// The day moves both moistures from where they stand at the start; six hours
// later, an hour of machine time at sixty to one being sixty, dew lies on the
// straw.
func TestTheDayGoesBy(t *testing.T) {
	s := wheat(t)
	d, err := evening().On(s)
	require.NoError(t, err)
	m := &tape{set: s}
	m.wait(d, 0)
	require.Equal(t, s.Conditions, m.set.Conditions)
	m.wait(d, 6.0/60)
	require.Greater(t, m.set.Conditions.StrawMoisture, s.Conditions.StrawMoisture+5)
	hour, air, ok := d.Air(m)
	require.True(t, ok)
	require.InDelta(t, 0, hour, 1e-9, "midnight")
	require.InDelta(t, 13.3, air.T, 0.1, "19 − 8 cos 45°")
	d.Hold("straw-moisture")
	m.set.Conditions.StrawMoisture = 9
	m.wait(d, 7.0/60)
	require.Equal(t, 9.0, m.set.Conditions.StrawMoisture)
}

// A step makes nothing, and adjusts only what has changed.
func TestStepMakesNothing(t *testing.T) {
	s := wheat(t)
	c := evening()
	c.Stretches = patch(10).Stretches
	d, err := c.On(s)
	require.NoError(t, err)
	m := &tape{set: s}
	require.Zero(t, testing.AllocsPerRun(1000, func() { m.way += 0.01; m.seconds += 0.01; d.Step(m) }))
	before := m.adjusted
	d.Step(m)
	require.Equal(t, before, m.adjusted)
}

func TestNoCourseChangesNothing(t *testing.T) {
	var c *Course
	d, err := c.On(wheat(t))
	require.NoError(t, err)
	m := &tape{set: wheat(t)}
	m.drive(d, 100)
	d.Hold("yield")
	_, _, ok := d.Air(m)
	require.True(t, !ok && d.Place(m) == "" && !d.Moves("yield") && m.adjusted == 0)
	require.Equal(t, m.set, d.Back(m.set))
}

func TestBadCoursesAreNamed(t *testing.T) {
	for name, spoil := range map[string]func(*Course){
		"stretches":   func(c *Course) { c.Stretches = make([]Stretch, MaxStretches+1) },
		"round":       func(c *Course) { c.Round = -1 },
		"green patch": func(c *Course) { c.Stretches[0].To = 50 },
		"edge":        func(c *Course) { c.Stretches[0].Edge = 61 },
		"green-weeds": func(c *Course) { c.Stretches[0].Values[0].To = 51 },
		"fan-speed":   func(c *Course) { c.Stretches[0].Values[0] = Value{setup.Find("fan-speed"), 900} },
		"day start":   func(c *Course) { c.Day.Start = 24 },
		"day pace":    func(c *Course) { c.Day.Pace = 121 },
		"humidity":    func(c *Course) { c.Day.Humidity = 0 },
	} {
		c := patch(0)
		c.Day = evening().Day
		_, err := c.On(wheat(t))
		require.NoError(t, err)
		spoil(c)
		_, err = c.On(wheat(t))
		require.ErrorContains(t, err, name)
		require.NotContains(t, err.Error(), "\n")
	}
}
