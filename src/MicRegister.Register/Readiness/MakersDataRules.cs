using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>
/// Whether a device's maker's data stand in the place of its certificates: a person inspected it, found it undamaged and uncontaminated and
/// keeps those data, and nothing ended that since.
/// </summary>
/// <param name="Holds">Whether they do.</param>
/// <param name="Why">Where they do not and the profile allows them, why not and what would help, as a sentence; otherwise empty.</param>
internal readonly record struct MakersDataRules(bool Holds, string Why)
{
    /// <summary>Asks it of a device and a quantity.</summary>
    /// <remarks>
    /// Days alone tell what came first, so that damage of the day of the inspection ends it too. A later inspection that says nothing of
    /// the device's state leaves it as it is; work that makes it another device ends it.
    /// </remarks>
    public static MakersDataRules Of(StandingDevice s, string quantity)
    {
        if (s.Profile?.Limit($"{CertificateLimits.MakersData}{s.Device.Kind}/{quantity}") is not { } limit) return new(false, "");
        // Words that are not known allow nothing.
        if (limit.Value is null && limit.Text != CertificateLimits.UntilDamaged) return new(false, "");
        var seen = s.Device.Inspections;
        var at = seen.Length - 1;
        while (at >= 0 && !seen[at].What.IsIntactWithMakersData) at--;
        if (at < 0)
            return No("Its maker's data would serve too, once an inspection finds it undamaged and uncontaminated and names them.");
        var stated = seen[at];
        if (seen.Skip(at + 1).FirstOrDefault(i => i.What.Amiss is not null) is { } amiss)
            return No($"Its maker's data serve no more: it was inspected and found {amiss.What.Amiss} on {amiss.Day:yyyy-MM-dd}.");
        if (s.Device.Services.FirstOrDefault(w => Ends(w, stated.Day)) is { } ended)
        {
            return No($"Its maker's data serve no more since {ended.Day:yyyy-MM-dd}: {ended.What.Text} ({ended.What.What.InWords}); "
                + "they do again once a later inspection finds it undamaged and uncontaminated.");
        }
        if (limit.Value is { } months && DueDay.AfterMonths(stated.Day, (int)Math.Clamp(months, 0, 1200)) is var due && due < s.Last)
            return No($"Its inspection of {stated.Day:yyyy-MM-dd} lets its maker's data serve through {due:yyyy-MM-dd} only.");
        return new(true, "");
    }

    private static bool Ends(Dated<DeviceServiced> work, DateOnly stated) => work.What.What is ServiceKind.Damage or ServiceKind.Malfunction
        ? work.Day >= stated
        : work.What.BeginsAnew && work.Day > stated;

    private static MakersDataRules No(string why) => new(false, " " + why);
}
