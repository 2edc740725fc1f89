package bridge

import (
	"math"
	"strconv"
	"strings"
)

// none stands where a reading cannot be computed.
const none = "–"

// number prints a value with the given digits after the point and with commas
// between thousands.
func number(v float64, digits int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', digits, 64)
	whole, rest, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if rest != "" {
		whole += "." + rest
	}
	if v < 0 && strings.Trim(s, "0.") != "" {
		return "−" + whole
	}
	return whole
}

// share prints a percentage: two digits after the point below ten, one from
// there on.
func share(v *float64) string {
	switch {
	case v == nil:
		return none
	case math.Abs(*v) < 9.995:
		return number(*v, 2)
	default:
		return number(*v, 1)
	}
}

// whole prints a value without digits after the point.
func whole(v *float64) string {
	if v == nil {
		return none
	}
	return number(*v, 0)
}

// count prints a whole number.
func count(n int64) string { return number(float64(n), 0) }

// trim prints a value with no more digits than it needs.
func trim(v float64) string {
	return strings.Replace(strconv.FormatFloat(v, 'g', 6, 64), "-", "−", 1)
}

// clock prints a span of simulated time.
func clock(seconds float64) string {
	tenths := int64(math.Floor(seconds*10 + 1e-9))
	m, rest := tenths/600, tenths%600
	text := strconv.FormatInt(rest/10, 10) + "." + strconv.FormatInt(rest%10, 10) + " s"
	if m > 0 {
		return strconv.FormatInt(m, 10) + " min " + text
	}
	return text
}

// title gives a name its capital.
func title(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// plural counts things in words.
func plural(n int64, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return count(n) + " " + many
}
