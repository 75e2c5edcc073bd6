// Command write writes the demo's untidy fan list to the file named, for go generate.
package main

import (
	"bytes"
	"fmt"
	"os"

	"lowsone/cmd/internal/demo/gen"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "write:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("want one file name, got %d", len(args))
	}
	var list bytes.Buffer
	if _, err := gen.WriteMessy(&list, gen.Catalogue(gen.DemoSeed, gen.DemoRows), gen.DemoSeed); err != nil {
		return err
	}
	return os.WriteFile(args[0], list.Bytes(), 0o644)
}
