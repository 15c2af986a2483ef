using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>
/// The gain of a chain's recorder channel on the day of an event: what stands between V/Pa and full scale/Pa beside the range.
/// </summary>
/// <param name="Term">What it adds, by its certificate or its entry; null where no channel was placed, so that 0 dB is taken.</param>
/// <param name="Unknown">Why nothing says how well it is known; null where its certificate does.</param>
internal sealed record ChannelGain(CheckTerm? Term, string? Unknown)
{
    private const string Name = "channel's gain";

    public double Db => Term?.ValueDb ?? 0;

    /// <summary>How well it is known, with the certificate as its identity; empty where nothing says.</summary>
    public IReadOnlyList<UncertaintyComponent> Components =>
        Term is { StandardDb: > 0 } t ? [new(t.Name, t.Source, t.StandardDb)] : [];

    /// <summary>That of the channel of a chain, by the certificate that was in force on the event's day.</summary>
    public static ChannelGain Of(TracedChain c)
    {
        if (c.First(DeviceKind.RecorderChannel) is not { } channel)
            return new(null, "No recorder channel is known, and 0 dB is taken for its gain");
        var term = CheckWork.Gain(Name, channel.CertifiedBy(c.Day));
        return new(
            term,
            term.Source == "none" ? $"{channel.Name} has {term.Remark}"
                : term.StandardDb > 0 ? null
                : $"The certificate of the gain of {channel.Name} states no uncertainty");
    }

    /// <summary>
    /// What must be known of it where it counts; null where it counts nowhere, or where its certificate says how well it is known.
    /// </summary>
    public string? Caution(double recordedShare, bool hasFullScale)
    {
        if (Unknown is null) return null;
        var units = string.Join(" and ", new[]
        {
            recordedShare > 0 ? "V/Pa" : null, hasFullScale && recordedShare < 1 ? "FS/Pa" : null,
        }.OfType<string>());
        return units.Length == 0 ? null : $"{Unknown}: nothing in U stands for it in {units}, where U is too small.";
    }
}
