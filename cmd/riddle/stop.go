//go:build !js

package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

// untilStopped returns a context that ends when the user or the system tells
// the program to stop. Told twice, it ends at once. The end of a terminal that
// was to be passed over from the start, as by nohup, still is.
func untilStopped() (context.Context, context.CancelFunc) {
	told := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		told = append(told, syscall.SIGHUP)
	}
	ctx, stop := signal.NotifyContext(context.Background(), told...)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}
