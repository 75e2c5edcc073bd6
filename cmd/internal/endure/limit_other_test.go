//go:build !linux

package endure

import "os/exec"

// leave does nothing where a program cannot be told to end with its parent.
func leave(*exec.Cmd) {}

// limited does nothing where files cannot be limited.
func limited() bool { return false }
