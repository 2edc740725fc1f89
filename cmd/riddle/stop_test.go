//go:build unix

package main

import (
	"os/signal"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestStopSignals: each way of telling a program to stop ends what it does in
// good order; one that is passed over, as nohup has it, does not.
func TestStopSignals(t *testing.T) {
	for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP} {
		ctx, stop := untilStopped()
		require.NoError(t, syscall.Kill(syscall.Getpid(), s))
		select {
		case <-ctx.Done():
		case <-time.After(5 * time.Second):
			t.Fatal(s, "is not heard")
		}
		stop()
	}

	signal.Ignore(syscall.SIGHUP)
	defer signal.Reset(syscall.SIGHUP)
	ctx, stop := untilStopped()
	defer stop()
	require.NoError(t, syscall.Kill(syscall.Getpid(), syscall.SIGHUP))
	time.Sleep(100 * time.Millisecond)
	require.NoError(t, ctx.Err())
}
