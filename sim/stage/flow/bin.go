package flow

import (
	"math"

	"riddle/sim/num"
)

// Bin is a class of kernels or pieces that are alike in kind, terminal
// velocity and size. A forecast works with bins where a run draws dots.
type Bin struct {
	Kind  Kind
	Vt    float32 // m/s
	Size  float32 // limiting dimension, mm
	Share float64 // of its kind; the shares of a kind sum to 1, of broken grain those of a class
	Class uint8   // of broken grain, by the size of its parts

	size       Node    // its size in the standard normal distribution
	step       float64 // width of its class there
	sizeSD, at float64 // standard deviation and middle of its sizes, mm
}

// Below returns the share of the bin whose size is at most mm.
func (b *Bin) Below(mm float64) float64 {
	if b.sizeSD <= 0 {
		if float64(b.Size) <= mm {
			return 1
		}
		return 0
	}
	half := float64(b.step / 2)
	lo, hi := b.size.middle-half, b.size.middle+half
	z := num.Clamp(b.size.middle+(mm-b.at)/b.sizeSD, lo, hi)
	return (num.Phi(z) - num.Phi(lo)) / (num.Phi(hi) - num.Phi(lo))
}

// cut is where Stream.Normal cuts a distribution, standard deviations. Chosen.
const cut = 3.0

// Node is one value of a standard normal distribution and its share.
type Node struct {
	Z, Share float64
	middle   float64 // of its step
}

// Nodes parts the standard normal distribution, cut at three standard
// deviations as Stream.Normal cuts it, into n even steps. The nodes stand at the
// middles of their steps, drawn in by so much that they vary as the whole does.
func Nodes(n int) []Node {
	nodes, step := make([]Node, n), 2*cut/float64(n)
	whole, spread := float64(2*num.Phi(cut))-1, 0.0
	for i := range nodes {
		lo := float64(step*float64(i)) - cut
		middle := lo + float64(step/2)
		nodes[i] = Node{Share: (num.Phi(lo+step) - num.Phi(lo)) / whole, middle: middle}
		spread += float64(nodes[i].Share * middle * middle)
	}
	in := 1.0
	if n > 1 { // the variance of the cut distribution, in closed form
		in = math.Sqrt((1 - float64(2*cut*num.NormalPDF(cut))/whole) / spread)
	}
	for i := range nodes {
		nodes[i].Z = nodes[i].middle * in
	}
	return nodes
}

// AppendBins adds to bins those of a kind whose terminal velocity and size
// are normal and independent, in nv by ns classes.
func AppendBins(bins []Bin, kind Kind, vt, vtSD float64, nv int, size, sizeSD float64, ns int) []Bin {
	for _, v := range Nodes(nv) {
		for _, d := range Nodes(ns) {
			bins = append(bins, Bin{
				Kind: kind, Vt: float32(vt + float64(vtSD*v.Z)), Size: float32(size + float64(sizeSD*d.Z)), Share: v.Share * d.Share,
				size: d, step: 2 * cut / float64(ns), sizeSD: sizeSD, at: size + float64(sizeSD*d.middle),
			})
		}
	}
	return bins
}
