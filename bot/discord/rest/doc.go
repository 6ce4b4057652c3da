// Package rest makes requests of the messaging platform's HTTP API. It keeps
// the platform's limits, tries again what may be tried again, and returns what
// is refused as a *Refusal. What the requests mean is for its callers.
//
// The client library's own requests pass the limits too, through
// Client.Transport. Nothing else of the library's is used here, because it
// keeps a rate-limit bucket for every interaction for ever, waits for buckets
// whatever the context says and retries by the body of an answer where the
// status tells.
package rest
