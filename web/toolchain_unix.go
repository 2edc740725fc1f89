//go:build unix

package web

import (
	"os/exec"
	"syscall"
)

// endTogether puts a command and what it starts in a group of their own, which
// ends as one.
func endTogether(cmd *exec.Cmd) {
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Cancel = func() error { return syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) }
}
