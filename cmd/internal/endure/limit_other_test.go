//go:build !linux

package endure

import (
	"os/exec"
	"time"
)

// leave does nothing where a program cannot be told to end with its parent.
func leave(*exec.Cmd) {}

// limited does nothing where files cannot be limited.
func limited() bool { return false }

// pause sleeps, as shortly as it can.
func pause(d time.Duration) { time.Sleep(d) }

// inMemory does not know of disks in memory.
func inMemory(string) bool { return false }
