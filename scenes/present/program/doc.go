// Package program is the whole program as one Screen: it switches scenes, owns the keys, the settings, the help and the
// pages that lie over a scene, and speaks for a screen reader. A shell (window, page, test) needs nothing else.
package program
