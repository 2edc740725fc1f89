package study

import (
	"math"
	"slices"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// search walks over whole steps of the settings. It keeps what it asked.
type search struct {
	base     setup.Setup
	dims     []dim
	ask      Ask
	progress func(int)
	known    map[place]answer
	asked    int
}

func newSearch(q Question) *search {
	s := &search{base: q.Base, ask: q.Ask, progress: q.Progress, known: map[place]answer{}}
	if s.progress == nil {
		s.progress = func(int) {}
	}
	c := crop.Find(q.Base.Crop)
	for _, f := range Tunable(c) {
		if slices.Contains(q.Hold, f.Name) {
			continue
		}
		b, _ := f.Usual(c)
		s.dims = append(s.dims, dim{field: f, band: b, last: int(math.Floor((b.To-b.From)/f.Step + 1e-9))})
	}
	return s
}

// Shape of the search: how many places are scattered over the ranges, from how
// many of the best a walk begins, and the coarsest step as a share of a range.
const (
	scattered = 16
	walks     = 2
	coarsest  = 4
)

// run scatters places over the ranges and walks downhill from the best of
// them, the given settings always among the beginnings.
func (s *search) run() (answer, error) {
	begin := []place{s.place(s.base)}
	for i := range scattered {
		begin = append(begin, s.scatter(i+1))
	}
	answers, err := s.all(begin)
	if err != nil {
		return answer{}, err
	}
	ends := []answer{}
	for range walks {
		at := 0 // the given settings first, then the best that are left
		if len(ends) > 0 {
			at = best(answers)
		}
		end, err := s.walk(answers[at])
		if err != nil {
			return answer{}, err
		}
		ends = append(ends, end)
		answers = append(answers[:at:at], answers[at+1:]...)
	}
	return ends[best(ends)], nil
}

// best returns the index of the best answer, the first of equals.
func best(list []answer) int {
	at := 0
	for i := range list {
		if list[i].better(&list[at]) {
			at = i
		}
	}
	return at
}

// walk tries a step up and down of every setting and goes on with the best;
// where none is better it tries them two by two, and then halves the steps,
// until single steps are no better either.
func (s *search) walk(from answer) (answer, error) {
	for share := coarsest; ; {
		moved := false
		for _, near := range [...]func(place, int) []place{s.alone, s.together} {
			list, err := s.all(near(from.at, share))
			if err != nil {
				return from, err
			}
			if len(list) == 0 {
				continue
			}
			if i := best(list); list[i].better(&from) {
				from, moved = list[i], true
				break
			}
		}
		if moved {
			continue
		}
		if s.single(share) {
			return from, nil
		}
		share *= 2
	}
}

// alone lists the places a step away from one in a single setting.
func (s *search) alone(at place, share int) []place {
	list := []place{}
	for i := range s.dims {
		for _, way := range [...]int{1, -1} {
			list = s.move(list, at, share, i, way)
		}
	}
	return list
}

// together lists the places a step away in two settings that follow each
// other in the order of the crop, since one often calls for the other.
func (s *search) together(at place, share int) []place {
	list := []place{}
	for i := 1; i < len(s.dims); i++ {
		for _, way := range [...][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
			list = s.move(list, at, share, i-1, way[0], i, way[1])
		}
	}
	return list
}

// move adds the place that lies off another by pairs of dim and direction, if
// the ranges leave room.
func (s *search) move(list []place, at place, share int, moves ...int) []place {
	to := at
	for i := 0; i < len(moves); i += 2 {
		d := &s.dims[moves[i]]
		to[moves[i]] = min(max(to[moves[i]]+moves[i+1]*s.stride(d, share), 0), d.last)
	}
	if to == at {
		return list
	}
	return append(list, to)
}

// stride is a share of a range in whole steps, at least one.
func (s *search) stride(d *dim, share int) int { return max(d.last/share, 1) }

// single reports whether all strides are single steps.
func (s *search) single(share int) bool {
	for i := range s.dims {
		if s.stride(&s.dims[i], share) > 1 {
			return false
		}
	}
	return true
}

// all answers places, asking those that are not known.
func (s *search) all(places []place) ([]answer, error) {
	fresh, setups := []place{}, []setup.Setup{}
	for _, p := range places {
		if _, ok := s.known[p]; ok {
			continue
		}
		to, err := s.setup(p)
		if err != nil {
			return nil, err
		}
		s.known[p] = answer{} // asked once, even if it is in the list twice
		fresh, setups = append(fresh, p), append(setups, to)
	}
	reports, err := s.ask(setups)
	if err != nil {
		return nil, err
	}
	for i, p := range fresh {
		a := s.judge(setups[i], reports[i])
		a.at = p
		s.known[p] = a
	}
	s.asked += len(fresh)
	s.progress(s.asked)
	list := make([]answer, len(places))
	for i, p := range places {
		list[i] = s.known[p]
	}
	return list, nil
}

// one answers a setup that may lie off the steps.
func (s *search) one(of setup.Setup) (answer, error) {
	reports, err := s.ask([]setup.Setup{of})
	if err != nil {
		return answer{}, err
	}
	s.asked++
	return s.judge(of, reports[0]), nil
}

func (s *search) judge(of setup.Setup, r readout.Report) answer {
	a := answer{setup: of, report: r}
	a.cost, a.ok = CostOf(&r)
	a.ok = a.ok && Allowed(&r)
	return a
}
