package tabular

import (
	"os"
	"syscall"
)

// tmpfile asks open(2) for a file without a name in a folder: O_TMPFILE less
// O_DIRECTORY, which differs between processors (linux/fcntl.h).
const tmpfile = 0x400000

// nameless opens a file without a name. Some disks have none.
func nameless(dir string) (*os.File, error) {
	return os.OpenFile(dir, os.O_RDWR|os.O_EXCL|tmpfile|syscall.O_DIRECTORY, 0o600)
}
