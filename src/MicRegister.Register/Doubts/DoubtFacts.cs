using MicRegister.Register.Facts;

namespace MicRegister.Register.Doubts;

/// <summary>
/// A person looked at a doubt and said what it comes to (ISO/IEC 17025:2017, 7.10). Subjects: the device, then the events it speaks of.
/// The last word on an event counts.
/// </summary>
/// <param name="Cause">Key of the doubt.</param>
/// <param name="IsConfirmed">Whether the results are indeed not to be relied on.</param>
/// <param name="Events">Ids of the events; empty speaks of all that it touches.</param>
/// <param name="Reason">Why.</param>
public sealed record DoubtSettled(string Cause, bool IsConfirmed, IReadOnlyList<string> Events, string Reason) : FactBody
{
    /// <summary>
    /// Ids of the profiles whose limits raised it when this was said; null where no limit raised it, or where this was said before they were
    /// written down: then usual practice raised it.
    /// </summary>
    public IReadOnlyList<string>? Profiles { get; init; }
}
