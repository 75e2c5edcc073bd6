package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2"

	"lowsone/cmd/internal/order"
	"lowsone/cmd/internal/view"
)

// checkOutput refuses, before any work, a file that may not be replaced:
// anything there that is no order list, so that no parts list is ever lost.
func (o *shortlistOptions) checkOutput() error {
	if o.output == "" || o.output == "-" {
		return nil
	}
	info, err := os.Lstat(o.output) // a link would be replaced, not what it leads to
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return checkFolder(filepath.Dir(o.output))
	case err != nil:
		return fmt.Errorf("write order list: %w", err)
	case info.IsDir():
		return failf("name a file in it", "%q is a folder", o.output)
	case info.Mode().Type() == fs.ModeSymlink:
		return failf("name the file it leads to; -o - writes to standard output", "%q is a link", o.output)
	case !info.Mode().IsRegular():
		return failf("-o - writes to standard output", "%q is no file", o.output)
	case info.Size() == 0:
		return nil
	}
	file, err := os.Open(o.output)
	if err != nil {
		return fmt.Errorf("write order list: %w", err)
	}
	defer file.Close()
	if _, err := order.Read(file); errors.Is(err, order.ErrNotOrders) {
		return failf("name another file; only an order list is replaced", "%q is there already and is no order list", o.output)
	}
	return nil
}

// checkFolder refuses a folder that is not there.
func checkFolder(dir string) error {
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return failf("make it first", "there is no folder %q", dir)
	}
	return nil
}

// deliver writes the list where it is wanted, and says what it comes to.
func (o *shortlistOptions) deliver(doc *view.Orders) error {
	s := o.session
	switch o.output {
	case "":
		if err := s.print(doc); err != nil {
			return err
		}
		s.say("nothing is written; -o order.csv writes the list")
	case "-":
		if err := view.Write(s.out, doc, view.FormatCSV, s.style); err != nil {
			return err
		}
	default:
		if err := writeOrders(o.output, doc); err != nil {
			return err
		}
		doc.File = o.output
		if err := s.print(doc); err != nil {
			return err
		}
		s.say("written to %s, lines: %d", o.output, len(doc.Lines))
	}
	s.say("%s", doc.Totals())
	return nil
}

// writeOrders writes the whole list under another name and then gives it its
// own.
func writeOrders(path string, doc *view.Orders) error {
	var list bytes.Buffer
	if err := doc.CSV(&list); err != nil {
		return err
	}
	if err := renameio.WriteFile(path, list.Bytes(), 0o644); err != nil {
		return fmt.Errorf("write order list: %w", err)
	}
	return nil
}
