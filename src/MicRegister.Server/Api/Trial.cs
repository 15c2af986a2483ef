using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>A spare on a station, tried without storing anything.</summary>
internal static class Trial
{
    /// <summary>The register as it would be; null where campaign, station or device is not there.</summary>
    public static Register.Register? Of(Register.Register register, string campaign, string station, string spare) =>
        Swapped(register, campaign, station, spare) is { } chain
            ? register.WhatIf([FactText.WriteDerived(new(Occurred.Unknown, "trial", "trial", uint.MaxValue), new ChainPlanned(station, chain), [Subject.Campaign(campaign), .. chain.Select(Subject.Device)])])
            : null;

    /// <summary>A station's chain with a device in the place of the one of its kind.</summary>
    public static IReadOnlyList<string>? Swapped(Register.Register register, string campaign, string station, string spare)
    {
        if (register.Campaign(campaign) is not { } state || !state.Stations.ContainsKey(station) || register.Device(spare) is not { } device) return null;
        var chain = state.Chains.GetValueOrDefault(station, []);
        return [.. chain.Where(d => register.Device(d)?.Kind != device.Kind), device.Id];
    }
}
