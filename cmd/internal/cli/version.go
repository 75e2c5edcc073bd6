package cli

import (
	"runtime/debug"
	"strings"
)

// version tells which program this is, from what the build noted: the module's
// version, else "devel" with the commit where it is known.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "devel"
	}
	return versionOf(info)
}

func versionOf(info *debug.BuildInfo) string {
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return strings.TrimPrefix(v, "v")
	}
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			commit = " " + s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = " with changes"
		}
	}
	return "devel" + commit + changed
}
