package cli

import (
	"io"
	"time"
)

// Env is what the program has around it.
type Env struct {
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	Getenv         func(string) string
	Now            func() time.Time
	// DataHome is the folder for data of the person's programs; the catalogue
	// is kept in its subfolder "lowsone" unless said otherwise.
	DataHome string
	// Terminal says whether a stream is a terminal and how wide it is, 0 where
	// that is not known.
	Terminal func(io.Writer) (width int, ok bool)
}
