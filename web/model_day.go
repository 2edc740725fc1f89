package web

import (
	"fmt"
	"math"
	"strings"

	"riddle/sim/trade/weather"
)

// fairDay is the day that the model's page draws: late summer, clear and calm.
var fairDay = weather.Day{Low: 11, High: 27, Humidity: 50, Clear: 1, Sunrise: 6, Sunset: 20}

// The drawing of a day, px: its frame and the moisture at its top, %.
const (
	dayLeft, dayRight, dayTop, dayBottom = 46.0, 700.0, 14.0, 260.0
	dayMost                              = 40.0
)

// dayChart draws grain and straw moisture of a crop through a fair day, and
// says the same in words.
func dayChart(crop string) (string, error) {
	x := func(hour float64) float64 { return dayLeft + hour/24*(dayRight-dayLeft) }
	y := func(moisture float64) float64 { return dayBottom - moisture/dayMost*(dayBottom-dayTop) }
	var grain, straw, frame strings.Builder
	driest, wettest := [2]float64{0, math.Inf(1)}, [2]float64{0, 0}
	for i := range 24*6 + 1 {
		hour := float64(i) / 6
		g, s, ok := weather.MoistureAt(math.Mod(hour, 24), &fairDay, crop)
		if !ok {
			return "", fmt.Errorf("no day is known for %q", crop)
		}
		fmt.Fprintf(&grain, "%.1f,%.1f ", x(hour), y(g))
		fmt.Fprintf(&straw, "%.1f,%.1f ", x(hour), y(min(s, dayMost)))
		if s < driest[1] {
			driest = [2]float64{hour, s}
		}
		if s > wettest[1] {
			wettest = [2]float64{hour, s}
		}
	}
	for hour := 0.0; hour <= 24; hour += 3 {
		fmt.Fprintf(&frame, "<line class=\"grid\" x1=\"%.1f\" y1=\"%g\" x2=\"%.1f\" y2=\"%g\"/><text x=\"%.1f\" y=\"%g\" text-anchor=\"middle\">%g</text>\n", x(hour), dayTop, x(hour), dayBottom, x(hour), dayBottom+18, hour)
	}
	for m := 0.0; m <= dayMost; m += 10 {
		fmt.Fprintf(&frame, "<line class=\"grid\" x1=\"%g\" y1=\"%.1f\" x2=\"%g\" y2=\"%.1f\"/><text x=\"%g\" y=\"%.1f\" text-anchor=\"end\">%g</text>\n", dayLeft, y(m), dayRight, y(m), dayLeft-6, y(m)+4, m)
	}
	g15, _, _ := weather.MoistureAt(15, &fairDay, crop)
	_, s11, _ := weather.MoistureAt(11, &fairDay, crop)
	words := fmt.Sprintf("A clear, calm day of %g to %g °C with %g %% humidity in the afternoon, for %s as it stands after several such days. Straw with its dew is driest at %s with %.0f %% and wettest at %s with %.0f %%; the kernels stay near %.0f %%.",
		fairDay.Low, fairDay.High, fairDay.Humidity, crop, clock(driest[0]), driest[1], clock(wettest[0]), wettest[1], g15)
	return fmt.Sprintf(`<figure><svg viewBox="0 0 760 300" role="img" aria-label="Moisture through a day: %s">
%s<text x="%g" y="%g" text-anchor="middle">hour of the day</text><text x="4" y="%g">%%</text>
<polyline class="straw" points="%s"/><polyline class="grain" points="%s"/>
<text class="name" x="%.1f" y="%.1f">straw and dew</text><text class="name" x="%.1f" y="%.1f">grain</text></svg>
<figcaption>%s</figcaption></figure>`, words, frame.String(), (dayLeft+dayRight)/2, dayBottom+36, dayTop+4,
		strings.TrimSpace(straw.String()), strings.TrimSpace(grain.String()), x(9.4), y(s11)-46, x(15.2), y(g15)-8, words), nil
}

// clock prints an hour of the day.
func clock(hour float64) string {
	minutes := int(math.Round(hour * 60))
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
}
