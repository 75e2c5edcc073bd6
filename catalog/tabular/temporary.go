package tabular

import "os"

// Temporary opens a temporary file in the folder dir, "" for the system's own, and
// gives what removes it once it is closed. Nothing of it stays when the program is
// killed: where the system can make a file without a name it has none from the
// start, else its name, made from pattern, is taken off at once. Windows keeps the
// names of open files.
func Temporary(dir, pattern string) (f *os.File, remove func() error, err error) {
	if dir == "" {
		dir = os.TempDir()
	}
	done := func() error { return nil }
	if f, err = nameless(dir); err == nil {
		return f, done, nil
	}
	if f, err = os.CreateTemp(dir, pattern); err != nil {
		return nil, nil, err
	}
	if os.Remove(f.Name()) == nil {
		return f, done, nil
	}
	return f, func() error { return os.Remove(f.Name()) }, nil
}
