package weather

import (
	"fmt"
	"math"

	"riddle/sim/num"
)

// Air is the air over the crop.
type Air struct {
	T  float64 // °C
	RH float64 // relative humidity, 0 to 1
}

// Saturation returns the pressure of saturated vapour at t °C, kPa:
// 0.6108 e^(17.27 t/(t + 237.3)). Published: Tetens 1930, as equation 11 of
// Allen, Pereira, Raes & Smith 1998, FAO Irrigation and Drainage Paper 56.
func Saturation(t float64) float64 { return float64(0.6108 * num.Exp(17.27*t/(t+237.3))) }

// Vapour returns the pressure of the vapour in the air, kPa.
func (a Air) Vapour() float64 { return float64(a.RH * Saturation(a.T)) }

// DewPoint returns the temperature at which the air is saturated, °C: the
// inverse of Saturation.
func (a Air) DewPoint() float64 {
	x := num.Log(max(a.Vapour(), 1e-6) / 0.6108)
	return 237.3 * x / (17.27 - x)
}

// Hour is the air at one hour of the day.
type Hour struct {
	At       float64 // hour of the day, 0 to below 24
	T        float64 // °C
	Humidity float64 // %
}

// Day is a day of weather that repeats. The temperature is a cosine between
// Low and High; the vapour in the air stays the same, save that it cannot be
// more than saturated. Given hours, if there are any, take the place of that.
type Day struct {
	Low, High float64 // °C
	Humidity  float64 // relative, at the warmest hour, %
	Clear     float64 // sky at night, 0 overcast to 1 clear
	Sunrise   float64 // hour
	Sunset    float64 // hour
	Hours     []Hour  // by hour, or none
}

const (
	// warmest is the hour of the highest temperature: mid-afternoon, common
	// practice. A cosine puts the lowest twelve hours away, at three; on real
	// days it is near sunrise. Simplified.
	warmest = 15.0
	// skyCooling is how far a surface open to a clear calm night sky cools below
	// the air, K: 2 to 4, from memory.
	skyCooling = 3.0
	// sunWarmth is how far a surface in full sun stands above the air, K. From
	// memory.
	sunWarmth = 3.0
	// twilight is how long the sky takes to gain or lose its hold, h. Calibrated.
	twilight = 1.5
)

// At returns the air at an hour, which may lie beyond the day.
func (d *Day) At(hour float64) Air {
	hour = clock(hour)
	if len(d.Hours) > 0 {
		return d.given(hour)
	}
	t := d.temperature(hour)
	vapour := float64(d.Humidity / 100 * Saturation(d.High))
	return Air{T: t, RH: min(1, vapour/Saturation(t))}
}

func (d *Day) temperature(hour float64) float64 {
	mean, swing := float64((d.Low+d.High)/2), float64((d.High-d.Low)/2)
	return mean + float64(swing*num.Cos((hour-warmest)*math.Pi/12))
}

// given returns the air on straight lines between the hours that are given.
func (d *Day) given(hour float64) Air {
	n := len(d.Hours)
	next := 0
	for next < n && d.Hours[next].At <= hour {
		next++
	}
	a, b := d.Hours[(next+n-1)%n], d.Hours[next%n]
	f := 0.0
	if span := clock(b.At - a.At); span > 0 {
		f = clock(hour-a.At) / span
	}
	return Air{T: a.T + float64(f*(b.T-a.T)), RH: num.Clamp((a.Humidity+float64(f*(b.Humidity-a.Humidity)))/100, 0, 1)}
}

// Surface returns the temperature of the crop's outside at an hour, °C: above
// the air's by day and below it by night, as far as the sky is clear.
func (d *Day) Surface(hour float64) float64 {
	hour = clock(hour)
	night := num.Clamp(1-num.SmoothStep((hour-d.Sunrise)/twilight)+num.SmoothStep((hour-(d.Sunset-twilight))/twilight), 0, 1)
	noon := float64((d.Sunrise + d.Sunset) / 2)
	sun := num.Positive(num.Cos((hour - noon) * math.Pi / (d.Sunset - d.Sunrise)))
	return d.At(hour).T + float64(d.Clear*(float64(sunWarmth*sun*(1-night))-float64(skyCooling*night)))
}

// clock brings an hour into the day, 0 to below 24.
func clock(hour float64) float64 { return hour - float64(24*math.Floor(hour/24)) }

// Validate reports what is wrong with a day: field, value and range in one
// line. The ranges are chosen.
func (d *Day) Validate() error {
	for _, v := range [...]struct {
		name      string
		v, lo, hi float64
		unit      string
	}{
		{"low", d.Low, -20, 45, "°C"}, {"high", d.High, d.Low, 50, "°C"}, {"humidity", d.Humidity, 1, 100, "%"}, {"clear", d.Clear, 0, 1, "(0 overcast, 1 clear)"},
		{"sunrise", d.Sunrise, 0, 11, "h"}, {"sunset", d.Sunset, 13, 24, "h"},
	} {
		if !(v.v >= v.lo && v.v <= v.hi) {
			return fmt.Errorf("%s: %g is not accepted; wanted is %g to %g %s", v.name, v.v, v.lo, v.hi, v.unit)
		}
	}
	last := -1.0
	for _, h := range d.Hours {
		if !(h.At > last && h.At < 24 && h.T >= -20 && h.T <= 50 && h.Humidity >= 0 && h.Humidity <= 100) {
			return fmt.Errorf("hours: %g h, %g °C, %g %% is not accepted; wanted are rising hours of 0 to below 24 with −20 to 50 °C and 0 to 100 %%", h.At, h.T, h.Humidity)
		}
		last = h.At
	}
	return nil
}
