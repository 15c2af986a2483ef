using MicRegister.Register.Readiness;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// Where a person clears a finding: the plan's row, the bench's line, the form of an inspection; one act from wherever it is told.
/// </summary>
internal static class WhatClears
{
    /// <summary>The address that clears it.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="campaign">Id of its campaign.</param>
    public static string Address(Finding finding, string campaign)
    {
        var (device, place) = (finding.Device is { } d ? Uri.EscapeDataString(d) : null, Uri.EscapeDataString(campaign));
        var name = finding.Station is { } s ? Uri.EscapeDataString(s) : null;
        return (finding.Clearing, device) switch
        {
            (Clearing.Calibrate, { } id) => "bench?device=" + id,
            (Clearing.Inspect or Clearing.Enter or Clearing.Decide, { }) =>
                DeviceAddress.Clearing(finding.Device!, finding.Clearing, finding.Rule),
            (Clearing.Swap, _) when name is not null => $"campaigns/{place}?station={name}",
            _ when name is not null => $"plan/{place}?station={name}#station-{name}",
            _ => "plan/" + place,
        };
    }

    /// <summary>What the key that leads there says.</summary>
    public static string Act(Finding finding) => (finding.Clearing, finding.Device) switch
    {
        (Clearing.Calibrate, { }) => "enter its result",
        (Clearing.Inspect, { }) => "inspect",
        (Clearing.Enter, { }) => "enter what is missing",
        (Clearing.Decide, { }) => "decide",
        (Clearing.Swap, _) when finding.Station is not null => "try a spare",
        _ => "change the plan",
    };

    /// <summary>Where all findings that are cleared alike stand in a campaign.</summary>
    public static string Group(Clearing clearing, string campaign) => $"campaigns/{Uri.EscapeDataString(campaign)}#{Anchor(clearing)}";

    /// <summary>The name of that place on the page.</summary>
    public static string Anchor(Clearing clearing) => "to-" + clearing.ToString().ToLowerInvariant();
}
