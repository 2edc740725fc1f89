//go:build !js

package web_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"image/png"
	"math/rand"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/web"
	"riddle/web/share"
)

// host serves the built page.
func host(t *testing.T) string {
	t.Helper()
	findBrowser(t)
	dir, err := built()
	require.NoError(t, err)
	server := httptest.NewServer(web.Handler(os.DirFS(dir)))
	t.Cleanup(server.Close)
	return server.URL + "/"
}

func (p *tab) ready() *tab {
	p.t.Helper()
	p.turn(`document.body.dataset.state === "ready" && !document.getElementById("link").disabled`)
	return p
}

// link is what the machine itself says it is set to.
func (p *tab) link() string { return eval[string](p, asked("link")) }

// machine reads the settings that the page shows, and what the machine gives
// from an empty start.
func (p *tab) fresh() (settings string, read readings) {
	p.t.Helper()
	p.send(map[string]any{"do": "pause"})
	p.send(map[string]any{"do": "reset"})
	p.forward(25 * sim.TickHz)
	return eval[string](p, `JSON.stringify([...document.querySelectorAll(".setting input")].map((e) => e.type === "checkbox" ? e.checked : e.value))`), p.readings()
}

// A teacher sets the machine, makes a link and sends it; a pupil opens it in a
// browser that has never been here, and gets the same numbers.
func TestTeacherSharesByLink(t *testing.T) {
	address := host(t)
	teacher := browse(t, address, 1440, 900).ready()
	teacher.do(chromedp.SetValue(chromedp.CSS(teacher.role("spinbutton", "Fan speed in rpm")), "1230"))
	eval[any](teacher, `document.querySelector('[data-found="spinbutton Fan speed in rpm"]').dispatchEvent(new Event("change"))`)
	teacher.wait(asked("link") + `.includes("fan-speed=1230")`)
	teacher.press("Copy link")
	teacher.wait(`document.getElementById("keep-said").textContent !== ""`)
	link := eval[string](teacher, `document.querySelector('`+teacher.role("textbox", "Link")+`').value`)
	require.True(t, strings.HasPrefix(link, address+"#v=1&"), link)

	pupil := browse(t, link, 1440, 900).ready()
	require.Equal(t, teacher.link(), pupil.link())
	shown, read := teacher.fresh()
	theirs, same := pupil.fresh()
	require.Equal(t, shown, theirs)
	require.Equal(t, read, same)
	require.NotNil(t, read.Short.Loss.Shoe)
}

// What was set is there again after a reload, without any address.
func TestSettingsSurviveAReload(t *testing.T) {
	address := host(t)
	p := browse(t, address, 820, 1180).ready()
	require.NotContains(t, eval[string](p, "location.href"), "#", "nobody has touched anything")
	p.choose("crop", "soybeans")
	p.choose("situation", "soybeans-lower-shut")
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "777"})
	want := p.link()
	p.wait(`location.hash.includes("fan-speed=777")`)
	p.do(chromedp.Reload())
	require.Equal(t, want, p.ready().link())
	p.do(chromedp.Navigate("about:blank"))
	p.do(chromedp.Navigate(address))
	require.Equal(t, want, p.ready().link())
	require.Equal(t, "soybeans-lower-shut", eval[string](p, `document.getElementById("situation").value`))
}

// anySetup is a machine set up in any legal way.
func anySetup(r *rand.Rand) share.Kept {
	k := share.Kept{Model: sim.Model}
	k.Setup, _ = setup.Default([]string{"wheat", "canola", "corn", "rice"}[r.Intn(4)])
	k.Setup.Seed = r.Uint64()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		f.Set(&k.Setup, f.From+r.Float64()*(f.To-f.From)) // refused where the header has none
	}
	return k
}

// Any link that is put into the address comes out of the page as it went in.
func TestAnyLinkGoesThroughThePage(t *testing.T) {
	p := browse(t, host(t), 820, 1180).empty()
	r := rand.New(rand.NewSource(1))
	for range 12 {
		k := anySetup(r)
		eval[any](p, fmt.Sprintf(`location.hash = %q`, k.Link()))
		p.wait(fmt.Sprintf(`%s === %q`, asked("link"), k.Link()))
	}
}

// Damaged links are told in plain words and change nothing.
func TestDamagedLinksChangeNothing(t *testing.T) {
	p := browse(t, host(t), 820, 1180).empty()
	p.forward(10)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "801"})
	p.wait(`location.hash.includes("fan-speed=801")`)
	before, tick := p.link(), p.machineTick()
	for _, c := range []struct{ hash, says string }{
		{"hello", "not made by Riddle"},
		{"v=7&crop=wheat&seed=1&end", "another version"},
		{"v=1&crop=wheat&seed=1&fan-sp", "cut off"},
		{"v=1&crop=wheat&end", "seed is missing"},
		{"v=1&crop=moss&seed=1&end", "moss for crop"},
		{"v=1&crop=wheat&seed=one&end", "whole number"},
		{"v=1&crop=wheat&seed=1&fan-speed=5000&end", "200 rpm to 1,800 rpm"},
		{"v=1&crop=wheat&seed=1&fan-speed=1&fan-speed=2&end", "twice"},
		{"v=1&crop=wheat&seed=1&colour=red&end", "colour"},
		{"v=1&crop=wheat&seed=1&reel-index&end", "damaged"},
		{"v=1&crop=<img src=x onerror=alert(1)>&seed=1&end", "for crop"},
	} {
		eval[any](p, fmt.Sprintf(`location.hash = %q`, c.hash))
		p.wait(fmt.Sprintf(`!document.getElementById("wrong").hidden && document.getElementById("wrong").innerText.replaceAll("\u00a0", " ").includes(%q)`, c.says))
		require.Contains(t, eval[string](p, `document.getElementById("wrong").innerText`), "Nothing has been changed")
		require.Zero(t, eval[int](p, `document.querySelectorAll("#wrong *").length`), "a link is text, never markup")
		require.Equal(t, before, p.link())
		require.Equal(t, tick, p.machineTick())
	}
	good := strings.Replace(before, "fan-speed=801", "fan-speed=802", 1)
	eval[any](p, fmt.Sprintf(`location.hash = %q`, good))
	p.wait(`document.getElementById("wrong").hidden`)
	require.Equal(t, good, p.link())
}

// A link counts as it was put into the address, even if the page writes there
// before the browser has told it.
func TestLinkIsNotLostToAnEarlierChange(t *testing.T) {
	p := browse(t, host(t), 820, 1180).empty()
	was := p.link()
	k := anySetup(rand.New(rand.NewSource(2)))
	eval[any](p, fmt.Sprintf(`(() => { location.hash = %q; history.replaceState(null, "", "#" + %q); })()`, k.Link(), was))
	p.wait(fmt.Sprintf(`%s === %q`, asked("link"), k.Link()))
	p.wait(fmt.Sprintf(`location.hash === "#" + %q`, k.Link()))
}

// give puts a file into the page's hands, as the file dialogue does.
func (p *tab) give(name, text string) {
	p.t.Helper()
	eval[any](p, fmt.Sprintf(`(() => {
		const files = new DataTransfer(), input = document.getElementById("file");
		files.items.add(new File([%q], %q));
		input.files = files.files;
		input.dispatchEvent(new Event("change"));
	})()`, text, name))
}

// Damaged files are told in plain words and change nothing.
func TestDamagedFilesChangeNothing(t *testing.T) {
	p := browse(t, host(t), 820, 1180).empty()
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "802"})
	before, whole := p.link(), eval[string](p, asked("file"))
	for _, c := range []struct{ name, text, says string }{
		{"empty.json", "", "It is empty"},
		{"diary.txt", "dear diary", "text that Riddle did not write"},
		{"picture.png", "\ufffdPNG\r\n\u001a\n", "It is a picture"},
		{"packed.zip", "PK\u0003\u0004\u0014", "unpack it first"},
		{"situation.json", `{"schema":"riddle.scenario/1"}`, "the file of a situation"},
		{"half.json", whole[:len(whole)/2], "cut off"},
		{"report.json", `{"schema":"riddle.report/1"}`, "a report of readings"},
		{"newer.json", strings.Replace(whole, "setup/1", "setup/2", 1), "another version"},
		{"key.json", strings.Replace(whole, `"seed"`, `"sead"`, 1), "sead"},
		{"twice.json", strings.Replace(whole, `"seed"`, `"seed": 1, "seed"`, 1), "twice"},
		{"range.json", strings.Replace(whole, `"fan_speed_rpm": `, `"fan_speed_rpm": 77`, 1), "200 to 1800"},
		{"crop.json", strings.Replace(whole, `"wheat"`, `"moss"`, 1), "moss"},
		{"huge.json", whole + strings.Repeat(" ", 200_000), "64 kB"},
	} {
		p.give(c.name, c.text)
		p.wait(fmt.Sprintf(`!document.getElementById("wrong").hidden && document.getElementById("wrong").innerText.includes(%q)`, c.says))
		require.Equal(t, before, p.link(), c.name)
	}
	p.give("good.json", strings.Replace(whole, `"fan_speed_rpm": 802`, `"fan_speed_rpm": 803`, 1))
	p.wait(`document.getElementById("wrong").hidden && ` + asked("link") + `.includes("fan-speed=803")`)
}

// downloads lets the tab save files into a directory of the test's, and returns it.
func (p *tab) downloads() (dir string) {
	p.t.Helper()
	dir = p.t.TempDir()
	_, err := chromedp.CallBrowser(p.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: "allow", DownloadPath: dir, BrowserContextID: chromedp.FromContext(p.ctx).BrowserContextID,
	})
	require.NoError(p.t, err)
	return dir
}

// The buttons save what they say.
func TestFilesAreSaved(t *testing.T) {
	p := browse(t, host(t), 1280, 800).empty()
	dir := p.downloads()
	p.forward(30 * sim.TickHz)
	get := func(button, kind string) (content []byte) {
		p.press(button)
		require.Eventually(t, func() bool {
			found, _ := filepath.Glob(filepath.Join(dir, "riddle-wheat-*."+kind))
			if len(found) != 1 {
				return false
			}
			var err error
			content, err = os.ReadFile(found[0])
			return err == nil && len(content) > 0
		}, 30*time.Second, 100*time.Millisecond, button)
		return content
	}
	k, err := share.ReadFile(get("Save as file", "json"))
	require.NoError(t, err)
	require.Equal(t, p.link(), k.Link())
	lines, err := csv.NewReader(bytes.NewReader(get("Save readings", "csv"))).ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(lines), 30)
	img, err := png.Decode(bytes.NewReader(get("Save picture", "png")))
	require.NoError(t, err)
	require.GreaterOrEqual(t, img.Bounds().Dx(), 1440)
	require.True(t, json.Valid([]byte(eval[string](p, asked("file")))))
}
