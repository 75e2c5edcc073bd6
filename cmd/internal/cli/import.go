package cli

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"lowsone/catalog"
	"lowsone/catalog/intake"
	"lowsone/catalog/partscsv"
	"lowsone/catalog/tabular"
	"lowsone/cmd/internal/view"
)

// importOptions are what import is asked for.
type importOptions struct {
	session *session
	intake  intake.Options
}

const importLong = `Import reads a parts list, a CSV or a workbook (.xlsx), into the catalogue,
whoever wrote it: character set, delimiter, decimal mark, header line and the
meaning of the columns are found and shown. What is taken wrongly can be
overruled. Of a workbook one sheet is read, its cells as they are and not as
they are shown; a sheet other than the first that is not hidden is a source of
its own, named as in parts.xlsx#24 V.

The rows replace those of the last import from the same source; other sources
stay. Rows that cannot be read are kept whole in a file of their own. --dry-run
shows all of it and writes nothing.`

const importExample = `  lowsone import parts.csv --dry-run
  lowsone import parts.csv --column noise_dba=Schall --source "winter list"
  lowsone import parts.csv --value kind=axial --value supply=dc
  lowsone import parts.xlsx --sheet "24 V"`

func newImportCmd(s *session, run func(context.Context, *importOptions) error) *cobra.Command {
	o := &importOptions{session: s}
	cmd := &cobra.Command{
		Use:         "import FILE|-",
		Short:       "read a parts list (CSV or .xlsx) into the catalogue",
		Long:        importLong,
		Example:     importExample,
		Annotations: noListForm(),
		Args:        exactly(1, "name one file, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			o.intake.File = args[0]
			return run(cmd.Context(), o)
		},
	}
	flags, format := cmd.Flags(), &o.intake.Format
	flags.SortFlags = false
	flags.Var(newParsed("field", o.assign), "column", "read a field from a column, as `FIELD=HEADER`; an empty HEADER: from none (repeatable; noise_bands also for each band)")
	flags.Var(newParsed("field", o.say), "value", "give a field to the rows that do not state it, as `FIELD=VALUE` (repeatable)")
	flags.StringVar(&o.intake.Source, "source", "", "`name` of the source whose rows are replaced (default: the file's name, with the sheet's)")
	flags.StringVar(&o.intake.Rejects, "rejects", "", "`file` for the rows that cannot be read (default: beside the catalogue)")
	flags.BoolVar(&o.intake.DryRun, "dry-run", false, "read and count everything, write nothing")
	flags.Var(readInto(&format.Delimiter, tabular.ParseDelimiter), "delimiter", "`name` of the delimiter: comma, semicolon, tab, bar, none, or the character")
	flags.StringVar(&format.Encoding, "encoding", "", "`name` of the character set, such as utf-8 or windows-1252")
	flags.Var(readInto(&format.Decimal, tabular.ParseMark), "decimal", "decimal `mark`: . or ,")
	flags.Var(readInto(&format.HeaderLine, lineNumber), "header-line", "`number` of the line the header stands on")
	flags.StringVar(&format.Sheet, "sheet", "", "`name` of the sheet of a workbook (default: the first that is not hidden)")
	return cmd
}

// assign reads one FIELD=HEADER.
func (o *importOptions) assign(text string) error {
	name, header, ok := strings.Cut(text, "=")
	if !ok {
		return usagef("write FIELD=HEADER, such as noise_dba=Schall", "there is no = in it")
	}
	d, err := fieldNamed(strings.TrimSpace(name), catalog.FieldNames())
	if err != nil {
		return err
	}
	same := func(a partscsv.Assignment) bool { return a.Field == d.ID }
	// Bands may stand in a column each.
	if d.Form != catalog.Bands && slices.ContainsFunc(o.intake.Columns, same) {
		return usagef("name one column for each field", "%s is given twice", d.Name)
	}
	o.intake.Columns = append(o.intake.Columns, partscsv.Assignment{Field: d.ID, Header: header})
	return nil
}

// say reads one FIELD=VALUE.
func (o *importOptions) say(text string) error {
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		return usagef("write FIELD=VALUE, such as kind=axial", "there is no = in it")
	}
	d, err := fieldNamed(strings.TrimSpace(name), catalog.FieldNames())
	if err != nil {
		return err
	}
	if slices.ContainsFunc(o.intake.Values, func(g partscsv.Given) bool { return g.Field == d.ID }) {
		return usagef("give one value for each field", "%s is given twice", d.Name)
	}
	given, err := partscsv.ParseGiven(d.ID, strings.TrimSpace(value))
	o.intake.Values = append(o.intake.Values, given)
	return err
}

func runImport(ctx context.Context, o *importOptions) error {
	account, err := o.carryOut(ctx)
	var unusable *intake.NothingUsableError
	if err != nil && !errors.As(err, &unusable) {
		return err
	}
	// Where no row was usable, what the columns were taken for says why.
	return cmp.Or(o.session.print(&view.Import{Account: account, Verbose: o.session.verbose}), err)
}

// carryOut runs the import with its progress in sight.
func (o *importOptions) carryOut(ctx context.Context) (intake.Account, error) {
	s := o.session
	dir, err := s.catalogDir()
	if err != nil {
		return intake.Account{}, err
	}
	o.intake.Catalog, o.intake.Stdin, o.intake.Time = dir, s.env.Stdin, s.env.Now()
	report, stop := s.progress("importing")
	defer stop()
	o.intake.Progress = report
	return intake.Run(ctx, o.intake)
}

// progress shows at a terminal how far a long job is; report is nil where it is
// not wanted.
func (s *session) progress(what string) (report func(done, all int), stop func()) {
	if _, terminal := s.env.Terminal(s.env.Stderr); !terminal || s.quiet {
		return nil, func() {}
	}
	return view.Progress(s.env.Stderr, what)
}
