using MicRegister.Documents.Import;

namespace MicRegister.Server.Pages.Imports;

/// <summary>How far the work on files is, in words.</summary>
/// <param name="IsStoring">Whether it is stored now, which is one act and cannot be stopped any more.</param>
/// <param name="Progress">Rows done, and all.</param>
/// <param name="Elapsed">How long it took so far.</param>
public sealed record ImportWork(bool IsStoring, ImportProgress Progress, TimeSpan Elapsed)
{
    // Before that a rate says nothing.
    private static readonly TimeSpan Settled = TimeSpan.FromSeconds(0.5);

    public int Total => Progress.Total;

    /// <summary>Share that is done, from 0 to 1.</summary>
    public double Share => Progress.Total == 0 ? 0 : Math.Min(1, (double)Progress.Done / Progress.Total);

    /// <summary>Rows a second; null where that cannot be told yet.</summary>
    public double? Rate => Elapsed >= Settled && Progress.Done > 0 ? Progress.Done / Elapsed.TotalSeconds : null;

    /// <summary>How long it still takes at that rate.</summary>
    public TimeSpan? Remaining => Rate is { } rate ? TimeSpan.FromSeconds((Progress.Total - Progress.Done) / rate) : null;

    /// <summary>All of it in a sentence.</summary>
    public string InWords => IsStoring ? FormattableString.Invariant($"Storing {Progress.Done} rows …")
        : Progress.Total == 0 ? "Reading the files …"
        : FormattableString.Invariant($"{Progress.Done} of {Progress.Total} rows worked out")
            + (Rate is { } rate ? FormattableString.Invariant($", {rate:0} a second, {Seconds(Remaining!.Value)} left") : "") + " …";

    private static string Seconds(TimeSpan time) => time.TotalSeconds < 1 ? "less than a second"
        : time.TotalMinutes < 2 ? FormattableString.Invariant($"{Math.Ceiling(time.TotalSeconds):0} s")
        : FormattableString.Invariant($"{Math.Ceiling(time.TotalMinutes):0} min");
}
