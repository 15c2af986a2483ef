using MicRegister.Metrology.Drift;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Drift;

public sealed class DriftBookTests
{
    private static readonly DateOnly Late = new(2030, 1, 1);

    private static Fact Device(string id, string? model = "A-12") => Make.Of(new DeviceRegistered("microphone", "M", model, id, []), "2010-01-01", Subject.Device(id));

    private static IEnumerable<Fact> Results(string id, int count, double step = 0) =>
        Enumerable.Range(0, count).Select(i => Make.Certificate(id, FormattableString.Invariant($"{2015 + i}-0{1 + (i % 9)}-1{id.Length % 10}"), -30 + (0.01 * ((i * 7 % 5) - 2)) + (i >= count / 2 ? step : 0), 0.08));

    private static List<Fact> Fleet(int devices) => [.. Enumerable.Range(0, devices).Select(i => FormattableString.Invariant($"D{i:000}")).SelectMany(id => Results(id, 6).Prepend(Device(id)))];

    [Fact]
    public void Devices_of_one_model_are_pooled_and_one_without_a_model_stands_alone()
    {
        var book = FactList.RegisterOf([.. Fleet(5), Device("X1", null), .. Results("X1", 4), Device("X2", null), .. Results("X2", 4), Device("Y1", "b-12"), .. Results("Y1", 3)]).Drift(Late);

        Assert.Equal([5, 1, 1, 1], book.Models.Select(m => m.Fleet.Pool.Devices));
        Assert.Equal(5, book.Of("D001")!.Fleet.Pool.Devices);
        Assert.Equal("X1", book.Of("X1")!.Model.Alone);
        Assert.Null(book.Of("NOWHERE"));
    }

    [Fact]
    public void The_order_of_facts_changes_no_bit()
    {
        var facts = Fleet(7);
        var (one, other) = (FactList.RegisterOf(facts).Drift(Late), FactList.RegisterOf(Enumerable.Reverse(facts)).Drift(Late));
        foreach (var id in one.DeviceIds)
        {
            Assert.Equal(one.Of(id)!.At(new(2026, 1, 1)).Band(), other.Of(id)!.At(new(2026, 1, 1)).Band());
            Assert.Equal(one.Of(id)!.PoolVersion, other.Of(id)!.PoolVersion);
        }
    }

    [Fact]
    public void A_book_that_followed_facts_one_by_one_is_that_of_a_fresh_register()
    {
        var facts = Fleet(6);
        var source = new FactList();
        var register = Register.Empty(source);
        foreach (var fact in facts)
        {
            register = Add(source, register, fact);
            _ = register.Drift(Late).Models;
        }
        var repaired = Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2018-01-01", "device:D002");
        var moved = Make.Of(new DeviceDescribed(new() { ["model"] = FieldValue.Of("Z-9") }, []), "2019-01-01", "device:D003");
        var annulled = Make.Annulling(facts[^1]);
        foreach (var fact in new[] { repaired, moved, annulled }) register = Add(source, register, fact);

        Same(FactList.RegisterOf([.. facts, repaired, moved, annulled]).Drift(Late), register.Drift(Late));
        Assert.Equal(2, register.Drift(Late).Of("D002")!.Series.Lives.Count);
        Assert.Equal(6, register.Drift(Late).Models[0].Fleet.Pool.Devices); // five devices, one of them with two lives
    }

    [Fact]
    public void A_hasty_answer_says_so_and_ends_at_the_bits_of_a_fresh_run()
    {
        var facts = Fleet(400);
        var source = new FactList();
        foreach (var fact in facts) source.Add(fact);
        var register = Register.Empty(source).With(facts);
        register.DriftMemory.IsHasty = true;
        Assert.False(register.Drift(Late).Of("D000")!.Fleet.IsProvisional);

        var more = Make.Certificate("D017", "2024-05-05", -29.2, 0.08);
        register = Add(source, register, more);
        var hasty = register.Drift(Late).Of("D017")!;
        Assert.True(hasty.Fleet.IsProvisional);
        Assert.Contains("being settled", hasty.PoolVersion, StringComparison.Ordinal);
        Assert.Empty(hasty.Findings);
        Assert.True(register.DriftMemory.Owes);

        register.DriftMemory.Settle();
        var settled = register.Drift(Late);
        Assert.False(settled.Of("D017")!.Fleet.IsProvisional);
        Assert.Equal(DriftFindingKind.NewestOpen, Assert.Single(settled.Of("D017")!.Findings).Finding.Kind);
        Same(FactList.RegisterOf([.. facts, more]).Drift(Late), settled);
    }

    [Fact]
    public void What_a_person_said_of_an_alarm_counts_and_the_alarm_is_gone()
    {
        List<Fact> facts = [.. Fleet(5), Device("S1"), .. Results("S1", 8, 0.5)];
        var step = Assert.Single(FactList.RegisterOf(facts).Drift(Late).Of("S1")!.Findings);
        Assert.Equal(DriftFindingKind.LastingStep, step.Finding.Kind);
        AssertNear(0.5, step.Finding.SizeDb, 0.05);
        Assert.Contains("changed for good", DriftWords.Found(FactList.RegisterOf(facts).Drift(Late).Of("S1")!, step.Finding, step.Point, step.Life), StringComparison.Ordinal);

        foreach (var decision in Enum.GetValues<AlarmDecision>())
        {
            var reviewed = FactList.RegisterOf([.. facts, Make.Of(new AlarmReviewed(step.Point.Certificate, decision, "looked"), "2024-01-01", "device:S1")]).Drift(Late).Of("S1")!;
            Assert.DoesNotContain(reviewed.Findings, f => f.Point.Certificate == step.Point.Certificate);
        }
    }

    // Five results on a ramp of 0.1 dB a year among devices that do not drift: hand algebra puts the line at -29.4 on 1 January 2021.
    [Fact]
    public void A_ramp_among_quiet_devices_is_said_beside_the_step_that_was_found()
    {
        List<Fact> facts = [.. Fleet(40), Device("R1"), .. Enumerable.Range(0, 6).Select(i => Make.Certificate("R1", FormattableString.Invariant($"{2015 + i}-01-01"), -30 + (0.1 * i), 0.06))];
        var drift = FactList.RegisterOf(facts).Drift(Late).Of("R1")!;

        Assert.NotEmpty(drift.Findings);
        AssertNear(0.1, drift.Steady!.SlopeDbPerYear, 1e-3);
        AssertNear(-29.4, drift.Steady.Line.At(new DateOnly(2021, 1, 1).DayNumber), 1e-3);
        Assert.Contains("+0.100 dB a year", DriftWords.Steady(drift, new(2021, 1, 1)), StringComparison.Ordinal);
        Assert.Equal("", DriftWords.Steady(FactList.RegisterOf(facts).Drift(Late).Of("D001")!, Late));
    }

    // 365 days after the result before, 0.35 dB off a limit of 0.3 dB: shortened by 0.5759 at a target of 0.9 (hand algebra).
    [Fact]
    public void The_staircase_speaks_of_the_last_interval()
    {
        var drift = FactList.RegisterOf([Device("A1"), Make.Certificate("A1", "2021-01-01", -30), Make.Certificate("A1", "2022-01-01", -30.35)]).Drift(Late).Of("A1")!;
        Assert.Contains("365 days ended −0.350 dB off, so the next would be 155 days", DriftWords.NextByStaircase(drift, 0.3, 0.9),
            StringComparison.Ordinal);
        Assert.Equal("", DriftWords.NextByStaircase(FactList.RegisterOf([Device("A1"), Make.Certificate("A1", "2021-01-01", -30)]).Drift(Late).Of("A1")!, 0.3, 0.9));
    }

    [Fact]
    public void What_is_said_of_a_joined_entry_reaches_the_book()
    {
        var source = new FactList();
        var wrong = Make.Certificate("B1", "2021-01-01", -30.1);
        var register = Register.Empty(source);
        foreach (var fact in new[] { Device("A1"), Device("B1"), Make.Certificate("A1", "2020-01-01", -30), wrong, Make.Of(new DevicesJoined("A1", "B1", "one device"), "2022-01-01", "device:A1", "device:B1") }) register = Add(source, register, fact);
        Assert.Equal(-30.1, register.Drift(Late).Of("A1")!.Series.InUseDb);
        var version = register.Version("device:A1");

        register = Add(source, register, Make.Replacing(wrong, Make.Issued(-30.2)));

        Assert.Equal(-30.2, register.Drift(Late).Of("A1")!.Series.InUseDb);
        Assert.True(register.Version("device:A1") > version);
        Assert.Equal(["A1", "B1"], register.EntriesOf("B1"));
    }

    [Fact]
    public void After_no_change_was_said_the_neighbours_are_not_found_instead()
    {
        List<Fact> facts = [.. Fleet(12), Device("S1"), .. Results("S1", 10, 0.5)];
        var step = Assert.Single(FactList.RegisterOf(facts).Drift(Late).Of("S1")!.Findings);
        var reviewed = FactList.RegisterOf([.. facts, Make.Of(new AlarmReviewed(step.Point.Certificate, AlarmDecision.NoChange, "looked"), "2026-01-01", "device:S1")]).Drift(Late).Of("S1")!;
        Assert.Empty(reviewed.Findings);
    }

    [Fact]
    public void A_repair_after_the_newest_result_is_said_and_an_uncertainty_that_cannot_be_is_no_result()
    {
        var repaired = FactList.RegisterOf([Device("A1"), .. Results("A1", 4), Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2029-01-01", "device:A1")]).Drift(Late).Of("A1")!;
        Assert.Equal(new DateOnly(2029, 1, 1), repaired.Series.BegunAnewOn);
        var tiny = FactList.RegisterOf([Device("A1"), .. Results("A1", 4), Make.Certificate("A1", "2028-01-01", -30, 1e-9)]).Drift(Late).Of("A1")!;
        Assert.Equal((4, 1), (tiny.Results, tiny.Series.WithoutUncertainty));
    }

    [Fact]
    public void Of_two_results_on_one_day_the_series_with_more_results_is_forecast()
    {
        Fact Other(string day) => Make.Of(Make.Issued(-29.9) with { FrequencyHz = 1000 }, day, "device:A1");
        var drift = FactList.RegisterOf([Device("A1"), Make.Certificate("A1", "2020-01-01", -30), Make.Certificate("A1", "2021-01-01", -30), Other("2021-01-01")]).Drift(Late).Of("A1")!;
        Assert.Equal((250.0, 2), (drift.Series.Key.FrequencyHz!.Value, drift.Results));
    }

    [Fact]
    public void A_day_before_a_result_does_not_know_it()
    {
        var register = FactList.RegisterOf(Fleet(3));
        Assert.Equal(2, register.Drift(new(2016, 12, 31)).Of("D000")!.Results);
        Assert.Equal(6, register.Drift(Late).Of("D000")!.Results);
    }

    [Fact]
    public void The_record_of_a_model_proves_no_more_than_it_spans()
    {
        var models = FactList.RegisterOf(Fleet(20)).Drift(Late).Models;
        var record = ToleranceRecord.Of(models[0].Devices, 0.3);
        Assert.Equal((0, 100), (record.Reliability!.Value.Failed, record.Reliability.Value.Count));
        Assert.InRange(record.ProvenMonths!.Value, 12, 26);
        Assert.Contains("nothing ever failed", record.Words, StringComparison.Ordinal);
        Assert.True(ToleranceRecord.Of(models[0].Devices, 0.015).Reliability!.Value.Failed > 0);
        Assert.Null(ToleranceRecord.Of([FactList.RegisterOf([Device("N1"), .. Results("N1", 1)]).Drift(Late).Of("N1")!], 0.3).ProvenMonths);
    }

    private static Register Add(FactList source, Register register, Fact fact)
    {
        source.Add(fact);
        return register.With([fact]);
    }

    private static void Same(DriftBook expected, DriftBook actual)
    {
        Assert.Equal(expected.DeviceIds, actual.DeviceIds);
        foreach (var id in expected.DeviceIds)
        {
            var (a, b) = (expected.Of(id)!, actual.Of(id)!);
            Assert.Equal(a.At(Late).Band(), b.At(Late).Band());
            Assert.Equal(a.PoolVersion, b.PoolVersion);
            Assert.Equal(a.Findings.Select(f => (f.Finding, f.Point)), b.Findings.Select(f => (f.Finding, f.Point)));
        }
    }

    private static void AssertNear(double expected, double actual, double tolerance) => Assert.InRange(actual, expected - tolerance, expected + tolerance);
}
