package verify

import "sync"

// Once is Run, computed once for all tests of this package.
var Once = sync.OnceValue(Run)
