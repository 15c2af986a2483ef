using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>Which checks of a chain serve what it recorded: near enough, and of the same setting up. Traces and doubt reports ask it alike.</summary>
/// <param name="Span">How far a check may lie away.</param>
/// <param name="SetUps">When the chain's parts were set up again.</param>
/// <param name="Offsets">Of the site's zone: a check of a bare day stands for all of that day.</param>
internal sealed record CheckReach(CheckSpan Span, SetUps SetUps, IReadOnlyList<ZoneOffset> Offsets)
{
    /// <summary>Whether a check before an instant serves it.</summary>
    public bool IsBefore(CheckRecord k, long from, TestTime test) => Span.IsBefore(k, from, test) && AgainAfter(k, from) is null;

    /// <summary>Whether a check after an instant serves it.</summary>
    public bool IsAfter(CheckRecord k, long to, TestTime test) => Span.IsAfter(k, to, test) && AgainBefore(k, to) is null;

    /// <summary>When the chain was set up again between a check and what it recorded from an instant on; null where it was not.</summary>
    public SetUpAgain? AgainAfter(CheckRecord k, long from) =>
        SetUps.Between(k.Occurred.IsInstant ? k.Instant : ZoneOffsets.StartOfDay(k.Day, Offsets), from);

    /// <summary>When it was set up again between what it recorded until an instant and a check; null where it was not.</summary>
    public SetUpAgain? AgainBefore(CheckRecord k, long to) =>
        SetUps.Between(to, k.Occurred.IsInstant ? k.Instant : ZoneOffsets.StartOfDay(k.Day.AddDays(1), Offsets));
}
