package cli

// The exit codes.
const (
	exitDone    = 0
	exitFailed  = 1
	exitUsage   = 2 // the command line is wrong; nothing was done
	exitNothing = 3 // nothing found, or nothing fits
)
