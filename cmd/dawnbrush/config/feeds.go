package config

// checkFeeds finds feeds whose terms do not fit the garden, and a second feed that
// is the first.
func (in *reader) checkFeeds(f *File) {
	for _, named := range []struct{ key, feed string }{{"feed", f.Feed}, {"second_feed", f.Second}} {
		for _, known := range in.known.Feeds {
			if known.Key == named.feed && known.NonCommercial && f.Sells == Yes && in.sound[named.key] {
				in.fault(in.given[named.key], `choose another one, such as "auto"`, "%s is free for those alone who do not sell, and this garden sells", named.feed)
			}
		}
	}
	if f.Feed == f.Second && f.Feed != Auto && in.sound["second_feed"] {
		in.fault(in.given["second_feed"], `name another one, "auto" or "none"`, "the second feed is the first")
	}
}
