//go:build !linux

package endure

// limited does nothing where files cannot be limited.
func limited() bool { return false }
