package known

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/facts"
	"riddle/testdata/published"
)

// some facts by hand: one that holds, one that does not, one whose words try to
// be markup, and one that is only given and does not hold.
func some() []facts.Fact {
	list := published.All()
	a, b, c, d := list[0], list[1], list[2], list[3]
	a.Class, b.Class, c.Class, d.Class = "arithmetic", "emergent", "emergent", "input"
	c.Mark, c.Rule, c.Unit = "published", false, "kg"
	b.Why = "Because <b>it</b> is so & must be."
	d.Why = "It was copied badly."
	return []facts.Fact{{Check: a, Got: a.Expected, Holds: true}, {Check: b, Got: b.Expected + 1}, {Check: c, Got: c.Expected, Holds: true}, {Check: d, Got: d.Expected + 1}}
}

func written(t *testing.T, list []facts.Fact) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, "default-src 'self'", list))
	return out.String()
}

// The page is headed by what comes out of the machine: how many hold, and which
// do not; what is only given follows, and is worth what is said of it.
func TestPageSaysWhatHoldsAndWhatNot(t *testing.T) {
	text := written(t, some())
	lead := regexp.MustCompile(`<p class="lead">(.*)</p>`).FindStringSubmatch(text)
	require.Contains(t, lead[1], "2 checks come out of the machine")
	require.Contains(t, lead[1], "1 hold, 1 do not.")
	require.Contains(t, text, "1 of them are numbers that works print")
	require.Contains(t, text, "of these 1 hold and 0 do not")
	require.Contains(t, text, "Because &lt;b&gt;it&lt;/b&gt; is so &amp; must be.")
	require.Less(t, strings.Index(text, "Because"), strings.Index(text, "It was copied badly."))
	require.Contains(t, text, `<dt>input <span>0 of 1 hold</span></dt>`)
	require.Contains(t, text, `data-state="no"`)
	require.Contains(t, text, `data-class="emergent"`)
	require.Contains(t, text, "TH threshing and straw walkers")
	require.Contains(t, text, `<meta http-equiv="Content-Security-Policy" content="default-src &#39;self&#39;">`)
}

// The strict policy allows neither inline script nor inline style.
func TestPageKeepsThePolicy(t *testing.T) {
	text := written(t, some())
	require.NotRegexp(t, regexp.MustCompile(`(?i)<style|\sstyle=|\son[a-z]+=|javascript:|<script(?:[^>]*)>[^<]`), text)
}

// Tags close in the order in which they open, every id stands once and every
// link within the page has its place.
func TestPageIsWellFormed(t *testing.T) {
	text := written(t, some())
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	ids, links := map[string]bool{}, []string{}
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range start.Attr {
			switch {
			case a.Name.Local == "id":
				require.False(t, ids[a.Value], "id %s stands twice", a.Value)
				ids[a.Value] = true
			case a.Name.Local == "href" && strings.HasPrefix(a.Value, "#"):
				links = append(links, a.Value[1:])
			}
		}
	}
	require.NotEmpty(t, links)
	for _, l := range links {
		require.True(t, ids[l], "#%s leads nowhere", l)
	}
}
