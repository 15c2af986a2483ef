using MicRegister.Metrology.Classes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Readiness, the trace and what a device's page shows give one verdict of a class, in the same words.</summary>
public sealed class ClassPlacesTests
{
    private const string Federal = "IEC 60942:1997 1L or later";

    // Whether it meets (.), meets by an own reading (note), is undecided (risk) or misses (stop): 14 CFR 36, A36.3.8.1.
    [Theory]
    [InlineData("1L", "adiabatic", "", "meets")]
    [InlineData("1L", "none", "Risks", "is undecided")]
    [InlineData("1/C", "adiabatic", "", "meets")]
    [InlineData("1, 2017", "none", "", "meets")]
    [InlineData("1", "none", "Risks", "is undecided")]
    [InlineData("1, 1988", "none", "Risks", "is undecided")]
    [InlineData("0", "none", "Note", "meets")]
    [InlineData("LS", "none", "", "meets")]
    [InlineData("2", "none", "Stops", "misses")]
    [InlineData("2/C", "adiabatic", "Stops", "misses")]
    [InlineData("gold", "none", "Risks", "is undecided")]
    public void All_three_places_say_the_same(string said, string law, string gravity, string answer)
    {
        Fact[] facts = [.. Heath.Flight(), Heath.WrittenWords(LimitKey.CalibratorClassLeast, Federal), .. Said(said, law),
            Make.Of(new KitPlanned(KitPurpose.Check, ["K1"]), "2026-05-03", Subject.Campaign(Heath.C), "device:K1")];
        var register = Heath.With(facts);

        var demand = Assert.Single(ClassDemand.Of(register.Device("K1")!, register.Profile(Heath.Rules)));
        var report = CampaignReadiness.Judge(register, Heath.C, Make.Day("2026-06-02"))!;
        var findings = report.Findings.Where(f => f.Rule == "calibrator-class").ToList();
        var reasons = Heath.One(register).Reasons.Where(r => r.Question == "calibrator-class").ToList();

        Assert.Equal(answer, demand.Verdict.Answer switch
        {
            ClassAnswer.Meets => "meets",
            ClassAnswer.Misses => "misses",
            _ => "is undecided",
        });
        if (gravity.Length == 0)
        {
            Assert.Empty(findings);
            Assert.Empty(reasons);
            return;
        }
        var finding = Assert.Single(findings);
        Assert.Equal((gravity, demand.Text), (finding.Gravity.ToString(), finding.Text));
        Assert.All(reasons, r => Assert.Equal(demand.Text, r.Text));
        Assert.Equal(
            finding.Gravity switch
            {
                Gravity.Stops => TraceVerdict.NotValid,
                Gravity.Risks => TraceVerdict.Doubtful,
                _ => TraceVerdict.Valid,
            },
            Assert.Single(reasons.DistinctBy(r => r.Text)).Weight);
    }

    // The maker states a correction only where its figure is stored; a figure of 0 is one.
    [Theory]
    [InlineData(null, ClassAnswer.Undecided)]
    [InlineData(0.0, ClassAnswer.Meets)]
    [InlineData(-0.006, ClassAnswer.Meets)]
    public void A_letter_asks_for_the_figure_of_the_correction_and_not_for_its_name(double? coefficient, ClassAnswer answer)
    {
        Fact[] figure = coefficient is { } c ? [Heath.Described("K1", ("pressure-db-per-kpa", c))] : [];
        var register = Heath.With(
            [.. Heath.Flight(), Heath.WrittenWords(LimitKey.CalibratorClassLeast, Federal), .. Said("1L", "coefficient"), .. figure]);

        Assert.Equal(answer, Assert.Single(ClassDemand.Of(register.Device("K1")!, register.Profile(Heath.Rules))).Verdict.Answer);
    }

    [Fact]
    public void An_own_reading_is_said_in_a_trace_and_leaves_it_valid()
    {
        var trace = Heath.One(Heath.With(
            [.. Heath.Flight(), Heath.WrittenWords(LimitKey.CalibratorClassLeast, Federal), .. Said("0", "none")]));

        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        Assert.Contains(trace.Reasons, r => r.Text.Contains("own reading", StringComparison.Ordinal));
    }

    [Fact]
    public void The_list_of_a_stored_profile_still_decides_by_its_words()
    {
        string Verdict(string name) => Heath.One(Heath.With(
            [.. Heath.Flight(), Heath.WrittenWords(LimitKey.CalibratorClasses, "LS, 1, 1/C"), .. Said(name, "none")])).Verdict.ToString();

        Assert.Equal(("Valid", "Valid", "NotValid", "NotValid"), (Verdict("1"), Verdict("LS"), Verdict("2"), Verdict("1L")));
    }

    [Fact]
    public void A_least_class_that_cannot_be_read_is_undecided()
    {
        var register = Heath.With([.. Heath.Flight(), Heath.WrittenWords(LimitKey.CalibratorClassLeast, "the best")]);

        Assert.Equal(TraceVerdict.Doubtful, Heath.One(register).Verdict);
        Assert.Contains("what the profile asks cannot be read", Heath.One(register).Reasons[0].Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1, 2017", true)]
    [InlineData("IEC 60942:1997 1L or later", true)]
    [InlineData("1", false)]
    [InlineData("best", false)]
    public void A_profile_states_a_least_class_with_its_edition(string text, bool isTaken)
    {
        var register = Heath.With([]);
        var written = new ProfileWritten("Own", "Own.", [new(LimitKey.CalibratorClassLeast, null, text, "own", "own")]);

        var answer = CampaignDecisions.Write(register, new(new(Make.On("2026-06-01"), "P1", "desk", 1)), "own-rules", written);

        Assert.Equal(isTaken, answer is Result<IReadOnlyList<Fact>>.Accepted);
        if (answer is Result<IReadOnlyList<Fact>>.Rejected { Why.Text: var why })
            Assert.StartsWith("Least class of calibrator with its edition", why, StringComparison.Ordinal);
        var number = new ProfileWritten("Own", "Own.", [new(LimitKey.MeterClassLeast, 1, "IEC 651:1979 1", "own", "own")]);
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(
            CampaignDecisions.Write(register, new(new(Make.On("2026-06-01"), "P1", "desk", 1)), "own-rules", number));
    }

    // 14 CFR 36, A36.3.8.1 with 36.6, G36.105(b) and (f); ISO 3744:2010, 5.2, from memory.
    [Theory]
    [InlineData("transport-1200mm", LimitKey.CalibratorClassLeast, Federal, "seen, 2021 edition")]
    [InlineData("small-propeller-inverted", LimitKey.CalibratorClassLeast, Federal, "seen, 2021 edition")]
    [InlineData("small-propeller-inverted", LimitKey.MeterClassLeast, "IEC 651:1979 1", "seen, 2021 edition")]
    [InlineData("engineering-practice", LimitKey.CalibratorClassLeast, "IEC 942:1988 1 or later", "from memory, unchecked")]
    [InlineData("small-unmanned-flush", LimitKey.CalibratorClassLeast, "IEC 942:1988 1 or later", "common practice, no source")]
    public void Built_in_profiles_ask_for_a_least_class(string profile, string key, string text, string certainty)
    {
        var built = BuiltInProfiles.Find(profile)!;
        var limit = built.Limit(key)!;

        Assert.Equal((text, certainty), (limit.Text, limit.Certainty));
        Assert.NotNull(LeastClass.Read(LimitKey.SortOf(key)!, limit.Text!, out _));
        Assert.Null(built.Limit(LimitKey.CalibratorClasses));
    }

    private static IEnumerable<Fact> Said(string said, string law)
    {
        var parts = said.Split(", ");
        yield return Heath.Described("K1", ("calibrator-class", parts[0]), ("pressure-law", law));
        if (parts.Length > 1) yield return Heath.Described("K1", ("calibrator-edition", parts[1]));
    }
}
