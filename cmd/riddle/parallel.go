package main

import (
	"runtime"
	"sync"
)

// each does the work of every number below n, at the same time where the
// machine has cores, and returns the error of the lowest number that failed.
// After an error no further work is begun.
func each(n int, work func(i int) error) error {
	errs := make([]error, n)
	var wait sync.WaitGroup
	var lock sync.Mutex
	next, failed := 0, false
	take := func() (int, bool) {
		lock.Lock()
		defer lock.Unlock()
		if next >= n || failed {
			return 0, false
		}
		next++
		return next - 1, true
	}
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for i, ok := take(); ok; i, ok = take() {
				if errs[i] = work(i); errs[i] != nil {
					lock.Lock()
					failed = true
					lock.Unlock()
				}
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// share adds up how far several pieces of work have come and tells the sum,
// 0 to 1.
type share struct {
	lock sync.Mutex
	done []float64
	tell func(float64)
}

func newShare(n int, tell func(float64)) *share {
	return &share{done: make([]float64, n), tell: tell}
}

// of returns the function that takes the progress of one piece of work.
func (s *share) of(i int) func(float64) {
	return func(done float64) {
		s.lock.Lock()
		defer s.lock.Unlock()
		s.done[i] = done
		sum := 0.0
		for _, d := range s.done {
			sum += d
		}
		s.tell(sum / float64(len(s.done)))
	}
}
