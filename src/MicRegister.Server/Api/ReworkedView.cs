using MicRegister.Register.Checks;

namespace MicRegister.Server.Api;

/// <summary>A check that was worked out from certificates in force no longer, and what it would be by those in force.</summary>
/// <param name="Fact">Id of the check.</param>
/// <param name="Station">Its station; null at a bench.</param>
/// <param name="Day">Its local day.</param>
/// <param name="Moment">Before or after the recordings.</param>
/// <param name="Superseded">Certificates that it was worked out from, beside those in force.</param>
/// <param name="SensitivityDb">Sensitivity level of the chain as it stands, in dB.</param>
/// <param name="AgainDb">The same worked out again; null where it cannot be.</param>
/// <param name="ChangeDb">The difference in dB.</param>
/// <param name="Why">Why it cannot be worked out again; null where it can.</param>
public sealed record ReworkedView(
    string Fact, string? Station, DateOnly Day, CheckMoment Moment, IReadOnlyList<ReworkedView.Basis> Superseded, double? SensitivityDb,
    double? AgainDb, double? ChangeDb, string? Why)
{
    public static ReworkedView Of(ReworkedCheck c) => new(
        c.Record.Fact.ToString(), c.Record.Check.Station, c.Record.Day, c.Record.Check.Moment,
        [.. c.Superseded.Select(b => new Basis(
            b.IsOfCalibrator, b.Device?.Id, b.UsedId, b.UsedDb, b.InForce?.Fact.ToString(), b.InForceDb, b.DifferenceDb))],
        c.Record.Check.SensitivityDb, c.Anew?.SensitivityDb, c.ChangeDb, c.Why);

    /// <summary>A certificate beside the one in force; levels in dB.</summary>
    public sealed record Basis(
        bool IsOfCalibrator, string? Device, string Used, double UsedDb, string? InForce, double? InForceDb, double? DifferenceDb);
}
