package layout

import (
	"fmt"
	"slices"
	"strings"
)

// strayParts names packages without a row in parts, and rows without a package.
func strayParts(files []goFile) []string {
	var found []string
	seen := map[string]bool{}
	for _, f := range files {
		if !seen[f.part] && place(f.part) < 0 {
			found = append(found, fmt.Sprintf("%s: package without a row in parts", f.part))
		}
		seen[f.part] = true
	}
	for _, p := range parts {
		if !seen[p.path] && !p.later {
			found = append(found, fmt.Sprintf("%s: row in parts without a package", p.path))
		}
	}
	return found
}

// place gives the index of a part, -1 where it has no row.
func place(p string) int {
	return slices.IndexFunc(parts, func(row part) bool { return row.path == p })
}

// publishedValues is the package that reads the values tests are held against.
const publishedValues = "testdata/sources"

// strayEdges names imports between parts that have no place in parts.
func strayEdges(files []goFile) []string {
	var found []string
	for _, f := range files {
		for _, imported := range f.imports() {
			to, ok := ours(imported)
			if !ok || to == f.part && f.test || edgeAllowed(f, to) {
				continue
			}
			found = append(found, fmt.Sprintf("%s: %s may not import %s", f.path, f.part, to))
		}
	}
	return found
}

func edgeAllowed(f goFile, to string) bool {
	if to == publishedValues {
		return f.test
	}
	from, target := place(f.part), place(to)
	if from < 0 || target < 0 || target >= from {
		return false
	}
	allowed := parts[from].imports
	return f.test || slices.Contains(allowed, to) || slices.Contains(allowed, all)
}

// strayLibraries names imports of other modules outside their homes.
func strayLibraries(files []goFile) []string {
	var found []string
	for _, f := range files {
		for _, imported := range f.imports() {
			if !library(imported) {
				continue
			}
			if reason := homeless(f, imported); reason != "" {
				found = append(found, fmt.Sprintf("%s: %s %s", f.path, imported, reason))
			}
		}
	}
	return found
}

func homeless(f goFile, imported string) string {
	at, known := homesOf(imported)
	switch {
	case !known:
		return "has no home in homes"
	case slices.Contains(at, testOnly):
		if f.test {
			return ""
		}
		return "is for tests only"
	case slices.Contains(at, helper):
		if i := place(f.part); f.test || i >= 0 && parts[i].kind != kernel {
			return ""
		}
		return "is not for kernels"
	case slices.ContainsFunc(at, func(home string) bool { return atHome(f.part, home) }):
		return ""
	}
	return fmt.Sprintf("is at home in %s", strings.Join(at, ", "))
}

func atHome(part, home string) bool {
	if tree, ok := strings.CutSuffix(home, "..."); ok {
		return strings.HasPrefix(part, tree)
	}
	return part == home
}

// homesOf gives the homes of the longest path in homes that covers imported.
func homesOf(imported string) (at []string, known bool) {
	longest := ""
	for p := range homes {
		if under(imported, p) && len(p) > len(longest) {
			longest = p
		}
	}
	return homes[longest], longest != ""
}

// under says whether p is tree or lies under it.
func under(p, tree string) bool { return p == tree || strings.HasPrefix(p, tree+"/") }

// strayStandard names imports of the standard library that the kind of the
// package rules out. Tests are free.
func strayStandard(files []goFile) []string {
	var found []string
	for _, f := range files {
		i := place(f.part)
		if i < 0 || f.test {
			continue
		}
		for _, imported := range f.imports() {
			if _, our := ours(imported); our || library(imported) {
				continue
			}
			switch parts[i].kind {
			case kernel:
				if !slices.Contains(kernelStd, imported) {
					found = append(found, fmt.Sprintf("%s: %q is not for kernels", f.path, imported))
				}
			case pure:
				if slices.ContainsFunc(impure, func(p string) bool { return under(imported, p) }) {
					found = append(found, fmt.Sprintf("%s: %q is not for a package without input and output", f.path, imported))
				}
			}
		}
	}
	return found
}
