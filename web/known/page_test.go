package known

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/facts"
	"riddle/testdata/published"
)

// some facts by hand: one that holds, one that does not, and one whose words
// try to be markup.
func some() []facts.Fact {
	list := published.All()
	a, b := list[0], list[1]
	b.Why = "Because <b>it</b> is so & must be."
	return []facts.Fact{{Check: a, Got: a.Expected, Holds: true}, {Check: b, Got: b.Expected + 1}}
}

func written(t *testing.T, list []facts.Fact) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Write(&out, "default-src 'self'", list))
	return out.String()
}

func TestPageSaysWhatHoldsAndWhatNot(t *testing.T) {
	text := written(t, some())
	require.Contains(t, text, "2 checks against the outside, from 1 sources: 1 hold, 1 do not.")
	require.Contains(t, text, "Because &lt;b&gt;it&lt;/b&gt; is so &amp; must be.")
	require.Contains(t, text, `data-state="no"`)
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
