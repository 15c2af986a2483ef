using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;
using MicRegister.Server.Work;

namespace MicRegister.Server.Api;

/// <summary>Mounts against a source and a band.</summary>
/// <param name="Campaign">Id of the campaign; null where none was asked about.</param>
/// <param name="AirFrom">Where the lowest and highest temperature are from: noted, profile or assumed; null without a campaign.</param>
/// <param name="Profile">What the campaign's profile says of mounts; empty without one.</param>
/// <param name="PracticeCertainty">Where practice is from.</param>
/// <param name="CapsuleSource">Where the figures of capsules are from.</param>
/// <param name="Beyond">What lies beyond the model.</param>
/// <param name="Mounts">The mounts.</param>
public sealed record MountsView(
    string? Campaign, string? AirFrom, IReadOnlyList<string> Profile, string PracticeCertainty, string CapsuleSource,
    IReadOnlyList<string> Beyond, IReadOnlyList<MountView> Mounts)
{
    internal static MountsView Of(MountSheet sheet) => new(
        sheet.Campaign?.Campaign, sheet.Campaign?.AirFrom, sheet.Campaign?.ProfileSays ?? [], MountPractice.Certainty, CapsuleSize.Source,
        MountCaveats.All, [.. sheet.Rows.Select(MountView.Of)]);
}

/// <summary>One mount.</summary>
/// <param name="Mount">How the microphone stands.</param>
/// <param name="Name">In words, with its height.</param>
/// <param name="Stations">Stations of the campaign that stand so.</param>
/// <param name="HeightM">Height of the diaphragm over ground or plate, in m.</param>
/// <param name="HeightBy">Where the height is from: measured, surveyed, planned, usual; empty where it was asked for.</param>
/// <param name="IsAllowed">Whether the campaign's profile allows it, or limits none.</param>
/// <param name="ResponseType">Response type of a microphone that suits it (common practice, no source).</param>
/// <param name="Source">What flies.</param>
/// <param name="FromHz">Lower end of the band that was asked for, in Hz.</param>
/// <param name="ToHz">Its upper end.</param>
/// <param name="ToleranceDb">Allowed deviation, in dB.</param>
/// <param name="RaisesDb">Level re free field that is taken off, in dB, and nothing beyond it.</param>
/// <param name="Problem">Why it cannot be answered; null where it can.</param>
/// <param name="Answer">The answer; null where it cannot be.</param>
public sealed record MountView(
    Mount Mount, string Name, IReadOnlyList<string> Stations, double HeightM, IReadOnlyList<string> HeightBy, bool IsAllowed,
    string ResponseType, SourceClass Source, double FromHz, double ToHz, double ToleranceDb, double RaisesDb, string? Problem,
    MountView.Answered? Answer)
{
    internal static MountView Of(MountRow row)
    {
        var q = row.Group.Question;
        return new(
            q.Mount, row.Name, row.Group.Stations, q.HeightM, row.Group.HeightBy, row.Group.IsAllowed, q.Mount.ResponseType, q.Source,
            q.FromHz, q.ToHz, q.ToleranceDb, q.Mount.RaisesDb,
            row.Answer is null ? string.Join(' ', q.Faults().Select(f => f.Text)) : null,
            row.Answer is { } answer ? Answered.Of(answer) : null);
    }

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;

    /// <summary>What model and practice say.</summary>
    /// <param name="ElevationDeg">Elevation of the source, in °.</param>
    /// <param name="TemperatureC">Temperature, in °C.</param>
    /// <param name="SpeedOfSound">In m/s.</param>
    /// <param name="Reflection">What the ground returns of the sound pressure.</param>
    /// <param name="FirstDipHz">Frequency of the first dip; null where there is none.</param>
    /// <param name="HoldsFromHz">Where the model keeps the level within the tolerance, in Hz; null where nowhere.</param>
    /// <param name="HoldsToHz">To where; null where it sets no end, or nowhere.</param>
    /// <param name="ModelHolds">Whether it keeps it over the band that was asked for.</param>
    /// <param name="PracticeTakes">Whether practice takes the mount for the source; null where it has no word on it.</param>
    /// <param name="Agreement">How both stand to each other.</param>
    /// <param name="Why">In words.</param>
    /// <param name="Bands">Third-octave bands of the band that was asked for.</param>
    /// <param name="Effects">What another gap, step or temperature makes.</param>
    /// <param name="Capsules">What sizes of capsules bear at the upper end.</param>
    public sealed record Answered(
        double ElevationDeg, double TemperatureC, double SpeedOfSound, double Reflection, double? FirstDipHz, double? HoldsFromHz,
        double? HoldsToHz, bool ModelHolds, bool? PracticeTakes, MountAgreement Agreement, string Why, IReadOnlyList<BandOfMount> Bands,
        IReadOnlyList<EffectOnMount> Effects, IReadOnlyList<CapsuleSize> Capsules)
    {
        internal static Answered Of(MountAnswer a) => new(
            a.Question.ElevationDeg, a.Question.TemperatureC, a.Receiver.SpeedOfSound, a.Question.Reflection, Finite(a.Receiver.FirstDipHz),
            a.HasBand ? a.FromHz : null, a.HasBand ? Finite(a.ToHz) : null, a.ModelHolds, a.PracticeTakes, a.Agreement, a.Why,
            [.. a.Bands.Select(BandOfMount.Of)], [.. a.Effects.Select(EffectOnMount.Of)], a.Capsules);
    }

    /// <summary>A third-octave band.</summary>
    /// <param name="BandHz">Nominal middle, in Hz.</param>
    /// <param name="MiddleHz">Exact middle.</param>
    /// <param name="LowHz">Lower edge.</param>
    /// <param name="HighHz">Upper edge.</param>
    /// <param name="ToneDb">Level of a tone at the middle re free field, in dB; null in a dip of no width.</param>
    /// <param name="LevelDb">Level of the band, in dB: the energy average, white within the band.</param>
    /// <param name="OffDb">How far that is from what the mount is meant to have.</param>
    /// <param name="IsWithin">Whether that is within the tolerance.</param>
    /// <param name="ChangedDb">Its level under each effect, in their order.</param>
    public sealed record BandOfMount(
        double BandHz, double MiddleHz, double LowHz, double HighHz, double? ToneDb, double LevelDb, double OffDb, bool IsWithin,
        IReadOnlyList<double> ChangedDb)
    {
        internal static BandOfMount Of(MountBand b) => new(
            Math.Round(b.Band.NominalHz, 6), b.Band.MiddleHz, b.Band.LowHz, b.Band.HighHz, Finite(b.ToneDb), b.LevelDb, b.OffDb,
            b.IsWithin, b.ChangedDb);
    }

    /// <summary>What another gap, step or temperature makes.</summary>
    /// <param name="What">Such as 1 mm higher.</param>
    /// <param name="HeightM">Height, in m.</param>
    /// <param name="SpeedOfSound">In m/s.</param>
    /// <param name="FirstDipHz">First dip; null where there is none.</param>
    /// <param name="HoldsFromHz">Where the model keeps the level, in Hz; null where nowhere.</param>
    /// <param name="HoldsToHz">To where; null where it sets no end, or nowhere.</param>
    public sealed record EffectOnMount(
        string What, double HeightM, double SpeedOfSound, double? FirstDipHz, double? HoldsFromHz, double? HoldsToHz)
    {
        internal static EffectOnMount Of(MountEffect e) => new(
            e.What, e.Receiver.HeightM, e.Receiver.SpeedOfSound, Finite(e.Receiver.FirstDipHz), e.FromHz < e.ToHz ? e.FromHz : null,
            e.FromHz < e.ToHz ? Finite(e.ToHz) : null);
    }
}
