// Package spelling makes out which word was meant by the one that was typed:
// without what people put around it, by other words of the trade, or as the
// nearest of the right ones.
package spelling
