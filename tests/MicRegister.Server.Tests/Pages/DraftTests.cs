using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Devices;
using MicRegister.Server.Pages.Profiles;
using MicRegister.Server.Pages.Shell;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What forms make of what was typed.</summary>
public sealed class DraftTests
{
    private static readonly DateOnly Day = new(2026, 2, 3);

    private static DeviceCertificate Certificate(params CalibrationResult[] results) => new(
        FactId.Parse("01JD8XK3ZZ0000000000000000"), Day,
        new("sensitivity", "C 1", "House", "insert voltage", "pressure", 0, "open-circuit", 250, results, new(101.3, 23, 50), "REF1", "our reference", new(2027, 2, 3), null, null, "fine"), ["D1"], false);

    [Fact]
    public void A_certificate_goes_through_the_form_unchanged()
    {
        var certificate = Certificate(new(AdjustmentState.AsFound, 12.3, "mV/Pa", 0.1, "dB", 2), new(AdjustmentState.AsLeft, 12.5, "mV/Pa", 0.08, "dB", 2));
        var draft = CertificateDraft.Of(certificate);

        var read = Assert.IsType<Result<CertificateIssued>.Accepted>(draft.Read()).Value;

        Assert.Equal(certificate.Issued.Results, read.Results);
        Assert.Equal(certificate.Issued, read with { Results = certificate.Issued.Results });
        Assert.True(draft.IsUnchanged(Day));
        draft.Humidity = "51";
        Assert.False(draft.IsUnchanged(Day));
    }

    [Fact]
    public void A_result_as_found_keeps_the_unit_in_which_it_was_stated()
    {
        var certificate = Certificate(new(AdjustmentState.AsFound, 0.0501, "V/Pa", 0.5, "%", 2), new(AdjustmentState.AsLeft, 50, "mV/Pa", 0.08, "dB", 2));
        Assert.Equal(certificate.Issued.Results, Assert.IsType<Result<CertificateIssued>.Accepted>(CertificateDraft.Of(certificate).Read()).Value.Results);
    }

    [Theory]
    [InlineData("Result", "twelve", "Result 'twelve': it is no number.")]
    [InlineData("Result", "", "Result is missing.")]
    [InlineData("Humidity", "damp", "Humidity 'damp': it is no number.")]
    public void A_field_that_is_no_number_is_named(string field, string text, string says)
    {
        var draft = CertificateDraft.Of(Certificate(new CalibrationResult(AdjustmentState.AsFoundAndLeft, 12.3, "mV/Pa", 0.1, "dB", 2)));
        if (field == "Result") draft.Value = text;
        else draft.Humidity = text;

        Assert.Equal(says, Assert.IsType<Result<CertificateIssued>.Rejected>(draft.Read()).Why.Text);
    }

    [Fact]
    public void A_new_certificate_goes_on_with_the_series_before()
    {
        var certified = Certificate(new CalibrationResult(AdjustmentState.AsFoundAndLeft, -38, "dB re 1 V/Pa", 0.1, "dB", 2));
        var device = FactList.RegisterOf([
            FactText.WriteDerived(
                new(Occurred.Unknown, "P1", "desk", 0), new DeviceRegistered("microphone", null, "H1", "1", []), [Subject.Device("D1")]),
            FactText.WriteDerived(new(Occurred.On(certified.Day), "P1", "desk", 1), certified.Issued, [Subject.Device("D1")]),
        ]).Device("D1")!;

        var draft = CertificateDraft.For(device, Day.AddDays(1));
        draft.Value = "-38,1";
        var read = Assert.IsType<Result<CertificateIssued>.Accepted>(draft.Read()).Value;

        Assert.Equal(SeriesKey.Of(device.Certificates[0].Issued), SeriesKey.Of(read));
        Assert.Equal((-38.1, "dB re 1 V/Pa"), (read.Results[0].Value, read.Results[0].Unit));
        Assert.Null(read.Number);
    }

    [Fact]
    public void A_limit_on_makers_data_is_a_number_or_words_and_an_interval_counts_as_chosen()
    {
        var key = CertificateLimits.MakersData + "windscreen/insertion-loss";
        var before = new ProfileLimit(key, null, CertificateLimits.UntilDamaged, "a rule", "seen");
        var row = new LimitRow(key, before);
        Assert.Same(before, row.Read());
        row.Value = "12";
        Assert.Equal(new ProfileLimit(key, 12, null, "own, in place of a rule", "own"), row.Read());
        row.Value = "for ever";
        Assert.Null(row.Read());
        Assert.Equal(new ProfileLimit(key, null, "until damaged", "own", "own"), new LimitRow(key, null) { Value = "until damaged" }.Read());

        var days = new ProfileLimit(LimitKey.IntervalDays + "microphone/response", 90, LimitKey.ToFirstDay, "a rule", "seen");
        var interval = new LimitRow(days.Key, days);
        Assert.Same(days, interval.Read());
        interval.Counted = LimitKey.AroundFirstDay;
        Assert.True(interval.IsChanged);
        Assert.Equal(new ProfileLimit(days.Key, 90, LimitKey.AroundFirstDay, "own, in place of a rule", "own"), interval.Read());
        interval.Counted = "";
        Assert.Null(interval.Read()!.Text);
    }

    [Fact]
    public void A_limit_that_was_changed_is_the_users_own()
    {
        var before = new ProfileLimit(LimitKey.DriftDb, 0.3, null, "a rule, clause 3", "from memory");
        var row = new LimitRow(before.Key, before);
        Assert.Same(before, row.Read());
        row.Value = "0,25";
        Assert.Equal(new ProfileLimit(LimitKey.DriftDb, 0.25, null, "own, in place of a rule, clause 3", "own"), row.Read());
        row.Source = "our handbook, 4.2";
        Assert.Equal("our handbook, 4.2", row.Read()!.Source);
        row.Value = "little";
        Assert.Null(row.Read());
        Assert.Equal(new ProfileLimit(LimitKey.Mounts, null, "pole", "own", "own"), new LimitRow(LimitKey.Mounts, null) { Value = "pole" }.Read());
        Assert.True(new LimitRow(before.Key, before) { IsOut = true }.IsChanged);
    }

    [Fact]
    public void A_clash_holds_what_came_since()
    {
        Fact Of(FactBody body, int counter) => FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, counter), body, ["device:D1"]);
        var facts = new[] { Of(new DeviceRegistered("microphone", null, null, "1", []), 0), Of(new DeviceNoted("first"), 1), Of(new DeviceNoted("second"), 2) };
        var register = FactList.RegisterOf(facts);

        Assert.Equal(["first", "second"], Clash.Of(register, "device:D1", 1).Meanwhile.Select(f => f.Said));
    }

    [Fact]
    public void A_device_is_judged_for_a_day_by_its_state_due_day_and_forecast()
    {
        Fact Of(FactBody body, string day, int counter) => FactText.WriteDerived(FactStamp.Imported(Occurred.On(DateOnly.ParseExact(day, "yyyy-MM-dd")), counter), body, ["device:D1"]);
        var registered = Of(new DeviceRegistered("microphone", null, null, "1", []), "2020-01-01", 0);
        Fact Result(string day, double level, double u) => Of(new CertificateIssued("sensitivity", null, null, null, null, null, null, null, [new(AdjustmentState.AsFoundAndLeft, level, "dB re 1 V/Pa", u, "dB", 2)], null, null, null, null, null, null, null), day, 1);
        (ReadinessVerdict, string) Judge(string day, params Fact[] facts)
        {
            var register = FactList.RegisterOf([registered, .. facts]);
            var judged = DeviceOnDay.Judge(register.Drift(new(2030, 1, 1)), register.Device("D1")!, register.Profile(BuiltInProfiles.Usual)!, DateOnly.ParseExact(day, "yyyy-MM-dd"));
            return (judged.Verdict, judged.Why);
        }

        Assert.Equal((ReadinessVerdict.NotReady, "it has no sensitivity calibration"), Judge("2026-03-01"));
        Assert.Equal((ReadinessVerdict.Ready, ""), Judge("2026-03-01", Result("2026-02-01", -38, 0.06)));
        Assert.Equal((ReadinessVerdict.NotReady, "its calibration is valid through 2028-02-01"), Judge("2028-02-02", Result("2026-02-01", -38, 0.06)));
        Assert.Equal(ReadinessVerdict.AtRisk, Judge("2026-03-01", Result("2026-02-01", -38, 0.6)).Item1); // U above the limit: the certificate is too coarse
        Assert.Equal((ReadinessVerdict.NotReady, "it is lost"), Judge("2026-03-01", Result("2026-02-01", -38, 0.06), Of(new DeviceStatusChanged(DeviceStatus.Lost, null), "2026-02-02", 2)));
    }
}
