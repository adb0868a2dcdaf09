// Package link writes a shared state into the fragment of an address and reads it back.
//
// A fragment is "state=1." and the document, packed by deflate (RFC 1951) and written as base64url without padding
// (RFC 4648, section 5). The number is the version of the packing, not of the document inside, which carries its own.
package link
