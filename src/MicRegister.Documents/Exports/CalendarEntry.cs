namespace MicRegister.Documents.Exports;

/// <summary>What a calendar shows on one day or on several in a row.</summary>
/// <param name="Uid">Its identifier, the same each time the feed is made, so that a calendar moves an entry and does not add another.</param>
/// <param name="First">Its first day.</param>
/// <param name="Last">Its last day, inclusive; not before the first.</param>
/// <param name="Summary">Its title.</param>
/// <param name="Description">More about it; null or empty where there is nothing to say.</param>
/// <param name="Category">What kind of entry it is; empty where it has none.</param>
/// <param name="Url">Address of a page about it, http or https; null where there is none.</param>
/// <param name="Changed">When it last changed; null where nobody knows.</param>
public sealed record CalendarEntry(
    string Uid, DateOnly First, DateOnly Last, string Summary, string? Description, string Category, string? Url, DateTimeOffset? Changed);
