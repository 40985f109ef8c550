// Package buildinfo tells which build this is.
package buildinfo

import "runtime/debug"

// Version is set at build time with -ldflags "-X wetrun/internal/buildinfo.Version=1.2.3".
var Version = "development"

// Revision returns the commit the binary was built from, as the Go tool noted it,
// or "unknown".
func Revision() string {
	info, ok := debug.ReadBuildInfo()
	if ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				return s.Value
			}
		}
	}
	return "unknown"
}
