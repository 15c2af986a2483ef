namespace MicRegister.Register.Fold;

/// <summary>Where a fact stands among those of its subject: corrected time, then client counter, then id.</summary>
internal readonly record struct TimelineEntry(long Milliseconds, uint Counter, int Sequence)
{
    public int CompareTo(TimelineEntry other, FactCatalog catalog)
    {
        var order = Milliseconds.CompareTo(other.Milliseconds);
        if (order == 0) order = Counter.CompareTo(other.Counter);
        return order != 0 ? order : catalog.Id(Sequence).CompareTo(catalog.Id(other.Sequence));
    }
}
