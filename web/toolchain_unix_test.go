//go:build unix

package web

import (
	"context"
	"io"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What a command has started ends with it. The pipe stays open for as long as
// anybody lives who holds it.
func TestACommandEndsWithWhatItStarted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	read, write, err := os.Pipe()
	require.NoError(t, err)
	defer read.Close()
	cmd := exec.CommandContext(ctx, "sh", "-c", "trap '' INT TERM; sh -c 'echo begun; sleep 60; true'; true")
	cmd.Stdout = write
	endTogether(cmd)
	require.NoError(t, cmd.Start())
	require.NoError(t, write.Close())
	begun := make([]byte, len("begun\n"))
	_, err = io.ReadFull(read, begun)
	require.NoError(t, err)
	cancel()
	require.Error(t, cmd.Wait())
	require.NoError(t, read.SetReadDeadline(time.Now().Add(5*time.Second)))
	_, err = io.ReadAll(read)
	require.NoError(t, err, "something lives on")
}
