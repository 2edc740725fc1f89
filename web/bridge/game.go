//go:build js

package bridge

import (
	"runtime/debug"
	"time"

	"github.com/hajimehoshi/ebiten/v2"

	"riddle/render/screen"
	"riddle/web/runner"
)

// The machine may take leastWork of a frame, so that the page stays awake.
// Where frames are long because the browser draws without help of a graphics
// processor, it may take a third of their time up to mostWork.
const leastWork, mostWork = 8 * time.Millisecond, 24 * time.Millisecond

// warmWork is what the machine may take of a frame while it is being filled:
// then a low rate of pictures is better than a long wait.
const warmWork = 60 * time.Millisecond

// curveEvery is how many updates may pass at most without a slice of a curve
// that is in the making, however short of time the machine is.
const curveEvery = 3

// updatesPerMessage spaces the messages to the page: ten a second.
const updatesPerMessage = runner.UpdatesPerSecond / 10

// skipBehind is how many frames share a picture while the machine cannot keep
// up: speed goes before smoothness.
const skipBehind = 3

// firstPictures are shown one a frame and before all else that is not needed for
// them, so that grain moves soon after the page is opened; garbage is mostly
// left lying until then.
const firstPictures = 4

const firstGarbage = 400 // % of what is in use

// game is the engine's view of a host.
type game struct {
	*Host
	port  *port
	views [2]screen.View          // of the machine, and of a second one beside it
	lay   ebiten.DrawImageOptions // of the picture on the screen

	frameWork time.Duration // spent since the last frame
	budget    time.Duration // what may be spent
	lastFrame time.Time
	updates   int // since the last message
	skipped   int // frames since the last picture
	pictures  int // so far
	meter     meter
	drawCost  time.Duration // of a picture
}

// Update makes the steps that are due and tells the page.
func (g *game) Update() error {
	began := time.Now()
	budget := g.budget
	if g.run.Warming() {
		budget = warmWork
	}
	if n := g.advance(func() bool { return g.frameWork+time.Since(began) > budget }); n > 0 {
		g.stale = true
		g.meter.stepped(n, time.Since(began))
	}
	if g.curve.Making() && !g.run.Warming() && (g.updates%curveEvery == 0 || g.frameWork+time.Since(began) < budget/2) {
		g.curve.Work(func() bool { return g.frameWork+time.Since(began) > budget })
	}
	g.frameWork += time.Since(began)
	if g.updates++; g.updates >= updatesPerMessage {
		g.updates = 0
		g.port.report(g)
	}
	return nil
}

// Draw paints the machine where it has changed.
func (g *game) Draw(to *ebiten.Image) {
	began := time.Now()
	g.meter.frames++
	g.newFrame(began)
	g.skipped++
	if !g.stale || !g.beginning() && (g.skipped < g.share() || (g.run.Behind() || g.run.Warming()) && g.skipped < skipBehind) {
		return
	}
	g.stale, g.skipped = false, 0
	g.goAlong()
	if g.pair != nil {
		g.drawBoth(to)
	} else {
		g.views[0].Draw(to, g.Snapshot(), g.options())
	}
	cost := time.Since(began)
	g.drawn(cost)
	if g.pictures++; g.pictures == firstPictures {
		debug.SetGCPercent(100)
	}
	g.meter.drew(cost, g.run.Machine.Live())
}

// drawBoth paints both machines, each in its half.
func (g *game) drawBoth(to *ebiten.Image) {
	for i, s := range [...]*Session{g.pair.First, g.pair.Second} {
		opt := g.options()
		if i == 1 {
			opt.Trail, opt.Passes = nil, nil // those of the first
		}
		part := to.SubImage(g.half(i)).(*ebiten.Image)
		g.views[i].Draw(part, s.Snapshot(), opt)
	}
}

// DrawFinalScreen lays the finished picture on the screen. Nothing shines
// through it, so that nothing need be mixed, which spares the processor where it
// does the work of a graphics one.
func (g *game) DrawFinalScreen(screen ebiten.FinalScreen, picture *ebiten.Image, geo ebiten.GeoM) {
	if geo.Element(0, 0) != 1 {
		ebiten.DefaultDrawFinalScreen(screen, picture, geo)
		return
	}
	g.lay.GeoM, g.lay.Blend = geo, ebiten.BlendCopy
	screen.DrawImage(picture, &g.lay)
}

// beginning reports whether the first pictures are still to be shown.
func (g *game) beginning() bool { return g.pictures < firstPictures }

// drawn takes up what a picture cost, evened out over some ten of them.
func (g *game) drawn(cost time.Duration) { g.drawCost += (cost - g.drawCost) / 10 }

// share returns how many frames share a picture: two where a picture costs
// more than a frame has to give.
func (g *game) share() int {
	if g.drawCost > leastWork {
		return 2
	}
	return 1
}

func (g *game) newFrame(now time.Time) {
	g.budget = min(max(now.Sub(g.lastFrame)/3, leastWork), mostWork)
	g.lastFrame, g.frameWork = now, 0
}

// goAlong lets the view go with the kernel that is followed.
func (g *game) goAlong() {
	q, ok := g.ride.Spot()
	if ok && !g.look.Stay && g.height > 0 && g.eye.Follow(q, float64(g.half(0).Dx())/float64(max(g.half(0).Dy(), 1))) {
		g.moved = true
	}
}

// Layout takes every pixel of the frame.
func (g *game) Layout(outsideWidth, outsideHeight int) (int, int) {
	scale := ebiten.Monitor().DeviceScaleFactor()
	w, h := int(float64(outsideWidth)*scale), int(float64(outsideHeight)*scale)
	if w != g.width || h != g.height || scale != g.scale {
		g.width, g.height, g.scale, g.stale = w, h, scale, true
		g.moved = true
	}
	return w, h
}

// Run shows the machine in the frame until the page is left.
func Run() error {
	debug.SetGCPercent(firstGarbage)
	g := &game{Host: newHost(), port: &port{}, budget: leastWork}
	g.port.open(g)
	ebiten.SetTPS(runner.UpdatesPerSecond)
	ebiten.SetScreenClearedEveryFrame(false)
	return ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{InitUnfocused: true})
}
