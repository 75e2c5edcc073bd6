//go:build unix

package bench

import (
	"os"
	"runtime"
	"syscall"
)

// peakOf gives the most memory a process had at once, in bytes.
func peakOf(p *os.ProcessState) int64 {
	usage, ok := p.SysUsage().(*syscall.Rusage)
	switch {
	case !ok:
		return 0
	case runtime.GOOS == "darwin" || runtime.GOOS == "ios": // there it comes in bytes
		return int64(usage.Maxrss)
	}
	return int64(usage.Maxrss) << 10
}
