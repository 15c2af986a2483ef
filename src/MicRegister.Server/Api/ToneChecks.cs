using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Setup;

namespace MicRegister.Server.Api;

/// <summary>Recorded tones of the chains of a campaign, as measured, and under which conditions they were recorded.</summary>
public sealed record NewToneChecks
{
    /// <summary>Id of the campaign.</summary>
    public required string Campaign { get; init; }

    /// <summary>Serial number or id of the calibrator.</summary>
    public required string Calibrator { get; init; }

    /// <summary>Serial number or id of the adapter; null where none was used.</summary>
    public string? Adapter { get; init; }

    /// <summary>Serial number or id of the barometer; null where nobody says.</summary>
    public string? Barometer { get; init; }

    /// <summary>Conditions at the place, as read there.</summary>
    public StatedAir? Air { get; init; }

    /// <summary>Takes the static pressure from the campaign's altitude where it was not read, and marks it so.</summary>
    public bool? EstimatePressure { get; init; }

    public CheckMoment Moment { get; init; } = CheckMoment.Other;

    /// <summary>When: a day, or an instant in UTC; null is now.</summary>
    public string? At { get; init; }

    /// <summary>Peak voltage of the channels' full scale; null takes what their entries state.</summary>
    public double? RangeV { get; init; }

    /// <summary>Which channel is which station, before the entries of the recorder channels; null goes by those alone.</summary>
    public IReadOnlyList<ChannelMapping>? Mappings { get; init; }

    /// <summary>What was measured, channel by channel.</summary>
    public required IReadOnlyList<MeasuredTone> Channels { get; init; }

    /// <summary>Day as of which is judged; null takes that of whoever works it out.</summary>
    public DateOnly? Today { get; init; }
}

/// <summary>What recorded tones say of the chains, stored or not.</summary>
/// <param name="Checks">One for each usable channel that stands for a station.</param>
/// <param name="Refused">The other channels.</param>
/// <param name="ExpectedHz">The calibrator's nominal frequency, which tones are measured by; null where it is not stated.</param>
/// <param name="Stored">How many checks were stored.</param>
public sealed record ToneChecksView(
    IReadOnlyList<CheckView> Checks, IReadOnlyList<ToneChecksView.RefusedTone> Refused, double? ExpectedHz, int Stored)
{
    /// <summary>A channel that no check was made of, with the reason.</summary>
    public sealed record RefusedTone(string File, int Channel, string? Station, string Problem);
}

/// <summary>Checks of recorded tones, worked out for commands and programs alike.</summary>
/// <param name="Entries">What would be stored.</param>
/// <param name="View">What is shown of it.</param>
internal sealed record ToneChecks(IReadOnlyList<CheckEntry> Entries, ToneChecksView View)
{
    /// <summary>Matches tones with the chains of a campaign and works their checks out.</summary>
    /// <exception cref="BadUseException">Something that was asked for is not there, or cannot be.</exception>
    public static ToneChecks Out(Register.Register register, NewToneChecks ask, Occurred now)
    {
        var campaign = register.Campaign(ask.Campaign)
            ?? throw new BadUseException($"Campaign {ask.Campaign}: allowed are {string.Join(", ", register.CampaignIds)}.");
        var calibrator = Find(register, ask.Calibrator, DeviceKind.Calibrator, "Calibrator");
        var adapter = ask.Adapter is null ? null : Find(register, ask.Adapter, DeviceKind.Adapter, "Adapter");
        var barometer = ask.Barometer is null ? null : Find(register, ask.Barometer, DeviceKind.Barometer, "Barometer");
        var matched = ChannelMatch.Of(
            register, campaign, [.. ask.Channels.Select(c => new RecordedChannel(c.File, c.Recorder, c.Channel, c.Channels))],
            ask.Mappings ?? []);
        var conditions = new CheckEntry
        {
            Campaign = campaign.Id,
            At = ask.At,
            Moment = ask.Moment,
            Calibrator = calibrator.Id,
            Adapter = adapter?.Id,
            Barometer = barometer?.Id,
            Air = ask.Air,
            EstimatePressure = ask.EstimatePressure,
            RangeV = ask.RangeV,
            Readings = [],
        };
        var (good, refused) = (new List<(CheckEntry Entry, ChainChecked Check)>(), new List<ToneChecksView.RefusedTone>());
        foreach (var (channel, match) in ask.Channels.Zip(matched))
        {
            if (channel.Entry(match.Station, conditions) is not { } entry)
            {
                refused.Add(new(
                    channel.File, channel.Channel, match.Station,
                    channel.Reasons.Count == 0 ? match.Why : string.Join("; ", channel.Reasons)));
                continue;
            }
            switch (CheckWork.Out(register, entry))
            {
                case Result<ChainChecked>.Accepted { Value: var check }: good.Add((entry, check)); break;
                case Result<ChainChecked>.Rejected { Why: var why }: throw new BadUseException($"Station {entry.Station}: {why.Text}");
            }
        }
        var (days, profile) = CheckView.Tried(register, campaign.Id, good, now);
        var fresh = good.Select(g => g.Check).ToHashSet(ReferenceEqualityComparer.Instance);
        var views = days.SelectMany(d => d.Checks.Where(j => fresh.Contains(j.Record.Check))
            .Select(j => CheckView.Of(register, j, d, profile)));
        return new([.. good.Select(g => g.Entry)], new([.. views], refused, calibrator.Number(DeviceField.FrequencyHz), 0));
    }

    private static DeviceState Find(Register.Register register, string serial, DeviceKind kind, string what)
    {
        var all = register.DeviceIds.Select(id => register.Device(id)!).Where(d => d.Kind == kind.Key).ToList();
        var found = all.Where(d => d.Id == serial || DeviceIdentity.Normal(d.Serial) == DeviceIdentity.Normal(serial)).ToList();
        return found is [var one] ? one
            : throw new BadUseException(
                $"{what} {serial}: allowed is one of "
                + $"{string.Join(", ", all.Select(d => d.Serial ?? d.Id).Order(StringComparer.Ordinal))}.");
    }
}
