using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Api;

/// <summary>A spare on a station, tried without storing anything.</summary>
internal static class Trial
{
    /// <summary>The register as it would be; null where campaign, station or device is not there.</summary>
    public static Register.Register? Of(Register.Register register, Saying saying, string campaign, string station, string spare) =>
        CampaignDecisions.SwapIn(register, saying, campaign, station, spare) is Register.Result<IReadOnlyList<Fact>>.Accepted accepted
            ? register.WhatIf(accepted.Value)
            : null;
}
