using System.Collections.Immutable;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Labels;

/// <summary>
/// A label was put on something. Subjects: the label, then the device, or the campaign whose station it stands at. Two bindings of
/// one code to different things are a finding; a code whose binding was annulled is used up all the same.
/// </summary>
/// <param name="Code">The code, nine characters.</param>
/// <param name="Station">Name of the station, where it is a campaign's; null for a device.</param>
public sealed record LabelBound(string Code, string? Station) : FactBody, IDeviceFact, ICampaignFact
{
    DeviceState IDeviceFact.ApplyTo(DeviceState device, Fact fact, bool counts) =>
        counts && Station is null ? device with { Parts = device.Parts.With(new DeviceLabel(Code)) } : device;

    CampaignState ICampaignFact.ApplyTo(CampaignState campaign)
    {
        if (Station is null) return campaign;
        var codes = campaign.Parts.Of<StationLabels>()?.Codes ?? StationLabels.None;
        return campaign with { Parts = campaign.Parts.With(new StationLabels(codes.SetItem(Station, Code))) };
    }
}

/// <summary>The label on a device.</summary>
internal sealed record DeviceLabel(string Code);

/// <summary>The labels at a campaign's stations, by their names.</summary>
internal sealed record StationLabels(ImmutableSortedDictionary<string, string> Codes)
{
    public static ImmutableSortedDictionary<string, string> None { get; } =
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);
}
