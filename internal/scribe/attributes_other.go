//go:build !linux && !darwin

package scribe

// keepAttributes keeps none where files have none that this program knows of.
func (in *folder) keepAttributes(_, _ string) bool { return true }
