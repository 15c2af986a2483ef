using System.Text.Json;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.People;
using MicRegister.Register.Settings;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Fold;

/// <summary>All that a register says, as one text, so that two can be compared.</summary>
internal static class RegisterDump
{
    public static string Of(Register register) => JsonSerializer.Serialize(new
    {
        register.State,
        Digest = register.Digest.ToString(),
        Devices = register.DeviceIds.Select(id => register.Device(id)),
        Then = register.DeviceIds.Select(id => register.Device(id, new DateOnly(2022, 6, 1))),
        Campaigns = register.CampaignIds.Select(id => register.Campaign(id)),
        Profiles = register.ProfileIds.Select(id => register.Profile(id)),
        People = register.PersonIds.Select(id => register.Person(id)),
        Findings = register.Findings(new DateOnly(2026, 5, 1)),
    });
}
