using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Labels;

public sealed class LabelTests
{
    // ISO 7064 MOD 37,36: A12425GABC1234002 -> M, RABD -> A, X0H -> X, B7Q3... -> I are seen in public test suites; the others recomputed with a general-purpose library.
    [Theory]
    [InlineData("A12425GABC1234002", 'M')]
    [InlineData("RABD", 'A')]
    [InlineData("X0H", 'X')]
    [InlineData("B7Q3SFTUSH2QN7BIXBPMNZAM", 'I')]
    [InlineData("MIC000001", 'H')]
    [InlineData("GP0042", 'B')]
    [InlineData("CAL0017", 'N')]
    [InlineData("0", '2')]
    [InlineData("Z", '4')]
    public void Check_characters_are_those_of_the_standard(string text, char check) => Assert.Equal(check, Iso7064.Check(text));

    [Fact]
    public void A_drawn_code_has_no_character_that_can_be_misread_and_reads_back()
    {
        var random = new Random(7064);
        for (var i = 0; i < 5000; i++)
        {
            var code = LabelCode.Draw(n =>
            {
                var bytes = new byte[n];
                random.NextBytes(bytes);
                return bytes;
            });
            Assert.Equal(LabelCode.Length, code.Text.Length);
            Assert.DoesNotContain(code.Text, c => "ILOU".Contains(c, StringComparison.Ordinal));
            Assert.True(LabelCode.TryRead(code.Spoken.ToLowerInvariant(), out var back, out _));
            Assert.Equal(code, back);
            // Every single character that is misread is noticed.
            var at = random.Next(LabelCode.Length);
            var wrong = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"[random.Next(32)];
            if (wrong != code.Text[at]) Assert.False(LabelCode.TryRead(code.Text[..at] + wrong + code.Text[(at + 1)..], out _, out _));
        }
    }

    [Theory]
    [InlineData("HTTPS://REGISTER.LAN/L/{0}")]
    [InlineData("http://register.lan/l/{0}?from=phone")]
    [InlineData("https://register.lan/field/#{0}")]
    [InlineData("  {0}\r\n")]
    public void A_code_is_read_from_an_address_or_bare(string form)
    {
        var code = Code(1);

        Assert.True(LabelCode.TryRead(string.Format(System.Globalization.CultureInfo.InvariantCulture, form, code), out var read, out _));
        Assert.Equal(code, read);
    }

    [Theory]
    [InlineData("", "Nothing was scanned")]
    [InlineData("https://shop.example/buy/7", "address of something else")]
    [InlineData("4012345678901", "no label code")]
    public void What_is_no_code_is_said_so(string text, string says)
    {
        Assert.False(LabelCode.TryRead(text, out _, out var why));
        Assert.Contains(says, why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_label_goes_on_one_thing_and_is_never_given_again()
    {
        var register = FactList.RegisterOf(Things());
        var saying = new Saying(new(Make.On("2026-07-02"), "P1", "desk", 1));

        var bound = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(LabelBook.Bind(register, saying, Code(1).Spoken, "M1")).Value;
        var now = register.WhatIf(bound);

        Assert.Equal(Code(1).Text, now.Device("M1")!.Label);
        Assert.Equal("M1", Assert.Single(LabelBook.Of(now, Code(1))).Device);
        Assert.Contains("is on it already", Refusal(LabelBook.Bind(now, saying, Code(1).Text, "M1")), StringComparison.Ordinal);
        Assert.Contains("never given twice", Refusal(LabelBook.Bind(now, saying, Code(1).Text, "M2")), StringComparison.Ordinal);
        Assert.Contains("misread or mistyped", Refusal(LabelBook.Bind(now, saying, Code(1).Text[..8] + (Code(1).Text[8] == 'A' ? 'B' : 'A'), "M2")), StringComparison.Ordinal);

        var taken = now.WhatIf([Make.Annulling(bound[0])]);
        Assert.Null(taken.Device("M1")!.Label);
        Assert.Contains("used before", Refusal(LabelBook.Bind(taken, saying, Code(1).Text, "M2")), StringComparison.Ordinal);

        var station = Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(LabelBook.BindStation(taken, saying, Code(2).Text, "C1", "S1")).Value;
        Assert.Equal(Code(2).Text, taken.WhatIf(station).Campaign("C1")!.Labels["S1"]);
    }

    [Fact]
    public void Two_bindings_made_apart_are_both_kept_and_become_a_finding()
    {
        var register = FactList.RegisterOf(
        [
            .. Things(),
            Make.Of(new LabelBound(Code(1).Text, null), "2026-07-02", "label:" + Code(1), "device:M1"),
            Make.Of(new LabelBound(Code(1).Text, null), "2026-07-03", "label:" + Code(1), "device:M2"),
            Make.Of(new LabelBound(Code(2).Text, null), "2026-07-02", "label:" + Code(2), "device:M2"),
        ]);

        var finding = Assert.Single(register.Findings(new DateOnly(2026, 5, 1)));
        Assert.Equal("label-twice", finding.Rule);
        Assert.Contains("Microphone Model 1 and on Microphone Model 2", finding.Text, StringComparison.Ordinal);
        Assert.Equal(2, finding.Facts.Count);
    }

    [Fact]
    public void All_bindings_stand_on_one_timeline_also_one_made_anew_and_one_that_was_annulled()
    {
        List<Fact> bound =
        [
            Make.Of(new LabelBound(Code(1).Text, null), "2026-07-02", "label:" + Code(1), "device:M1"),
            Make.Of(new LabelBound(Code(1).Text, null), "2026-07-03", "label:" + Code(1), "device:M2"),
            Make.Of(new LabelBound(Code(2).Text, "S1"), "2026-07-04", "label:" + Code(2), "campaign:C1"),
        ];
        var list = new FactList();
        var register = Register.Empty(list);
        Say([.. Things()]);
        Assert.Equal(0, register.Version(LabelBook.AllBindings));
        for (var n = 1; n <= bound.Count; n++)
        {
            Say(bound[n - 1]);
            Assert.Equal(n, register.Version(LabelBook.AllBindings));
        }
        Say(Make.Annulling(bound[0]));

        Assert.Equal(bound.Select(f => f.Id), OnTimeline(register));
        using var image = new MemoryStream();
        RegisterImage.Write(register, image);
        image.Position = 0;
        Assert.Equal(bound.Select(f => f.Id), OnTimeline(RegisterImage.Read(image, list)));
        // It is no label.
        Assert.Equal(new[] { Code(1).Text, Code(2).Text }.Order(StringComparer.Ordinal), register.LabelCodes);

        void Say(params Fact[] facts)
        {
            foreach (var fact in facts) list.Add(fact);
            register = register.With(facts);
        }

        static IEnumerable<FactId> OnTimeline(Register of) => of.Facts(LabelBook.AllBindings).Select(s => of.Source.Read(s).Id);
    }

    private static string Refusal(Result<IReadOnlyList<Fact>> result) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(result).Why.Text;

    // The seed decides the code, so that one number is one label.
    private static LabelCode Code(int seed)
    {
        var random = new Random(seed);
        return LabelCode.Draw(n =>
        {
            var bytes = new byte[n];
            random.NextBytes(bytes);
            return bytes;
        });
    }

    private static IEnumerable<Fact> Things()
    {
        yield return Make.Registered("M1", "1");
        yield return Make.Registered("M2", "2");
        yield return Make.Of(new CampaignPlanned("Trial", new(2026, 7, 1), new(2026, 7, 12), "Zone/Site", [], "Field", 100, SourceClass.Jet, 50, 10000, null, null, "engineering-practice", 1, 0), "2026-05-02", "campaign:C1");
        yield return Make.Of(new StationPlanned("S1", 40, -8, Mount.FlushPlate, null), "2026-05-02", "campaign:C1");
    }
}
