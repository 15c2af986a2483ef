using MicRegister.Register.Devices;

namespace MicRegister.Register.Campaigns;

/// <summary>Limits on what certificates state of a kind of device and a quantity, and what may stand in their place.</summary>
public static class CertificateLimits
{
    /// <summary>
    /// Begin of the key of the greatest change between two calibrations in each third-octave band, in dB: <c>change-band/KIND/QUANTITY</c>.
    /// </summary>
    public const string ChangeInBands = "change-band/";

    /// <summary>Begin of the key of the greatest error against the nominal figure, in dB: <c>error/KIND/QUANTITY</c>.</summary>
    public const string GreatestError = "error/";

    /// <summary>
    /// Begin of the key by which the maker's data may stand in the place of certificates, while an inspection found the device undamaged
    /// and uncontaminated: <c>makers-data/KIND/QUANTITY</c>, in calendar months, or <see cref="UntilDamaged"/>.
    /// </summary>
    public const string MakersData = "makers-data/";

    /// <summary>Text of <see cref="MakersData"/>: the inspection holds until damage or contamination is stated.</summary>
    public const string UntilDamaged = "until damaged";

    /// <summary>Kinds of limits by the begin of their key, with the words that follow on the kind of device.</summary>
    public static IReadOnlyList<(string Begin, string Words)> Kinds { get; } =
    [
        (ChangeInBands, "Greatest change between calibrations in a third-octave band"),
        (GreatestError, "Greatest error against the nominal figure"),
        (MakersData, "Maker's data in the place of certificates, while intact"),
    ];

    /// <summary>Quantities whose nominal figure is a detail of the device.</summary>
    public static IReadOnlyList<string> WithNominal { get; } = ["attenuation", "gain", "level"];

    /// <summary>Limits of one sort that a profile sets a kind of device, by quantity.</summary>
    /// <param name="profile">The profile; null has none.</param>
    /// <param name="begin">Begin of the key.</param>
    /// <param name="kind">Kind of the device.</param>
    internal static IEnumerable<(string Quantity, ProfileLimit Limit)> Of(ProfileState? profile, string begin, string? kind)
    {
        if (profile is null || kind is null) yield break;
        foreach (var limit in profile.Written.Limits)
        {
            if (!limit.Key.StartsWith(begin, StringComparison.Ordinal)) continue;
            var rest = limit.Key.AsSpan(begin.Length);
            if (rest.Length <= kind.Length || rest[kind.Length] != '/' || !rest.StartsWith(kind, StringComparison.Ordinal)) continue;
            yield return (limit.Key[(begin.Length + kind.Length + 1)..], limit);
        }
    }

    /// <summary>Why a limit of these cannot be; null where it can, or is none of them.</summary>
    public static string? Wrong(ProfileLimit limit)
    {
        if (limit.Key.StartsWith(MakersData, StringComparison.Ordinal) && limit.Value is null && limit.Text != UntilDamaged)
            return $"'{limit.Text}': allowed is a number of months, or '{UntilDamaged}'.";
        var isNumber = limit.Key.StartsWith(ChangeInBands, StringComparison.Ordinal)
            || limit.Key.StartsWith(GreatestError, StringComparison.Ordinal);
        return isNumber && limit.Value is null ? $"'{limit.Text}': allowed is a number of dB." : null;
    }

    /// <summary>Words and unit of a key; null where it is none of these.</summary>
    /// <param name="key">The key.</param>
    /// <param name="parts">Its parts.</param>
    internal static LimitKey? Find(string key, string[] parts)
    {
        if (parts is not [var sort, var kindKey, var quantity] || DeviceKind.Find(kindKey) is not { } kind || quantity.Length == 0) return null;
        return (sort + "/") switch
        {
            ChangeInBands => new(
                key, $"{kind.Label}: greatest change of its {quantity} between calibrations in each third-octave band", "dB", 0.001, 60),
            GreatestError when WithNominal.Contains(quantity) => new(
                key, $"{kind.Label}: greatest error of its {quantity} against the nominal figure", "dB", 0.001, 60),
            MakersData => new(
                key, $"{kind.Label}: for how long an inspection that finds it intact lets the maker's data stand for its {quantity} "
                    + $"certificates; {UntilDamaged}, or a number", "months", 1, 600),
            _ => null,
        };
    }
}
