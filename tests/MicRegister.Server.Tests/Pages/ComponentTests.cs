using Bunit;
using MicRegister.Documents.Drawings;
using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Parts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Tests.Pages;

public sealed class ComponentTests : PageContext
{
    [Theory]
    [InlineData(ReadinessVerdict.Ready, "● ready")]
    [InlineData(ReadinessVerdict.AtRisk, "▲ at risk")]
    [InlineData(ReadinessVerdict.NotReady, "■ not ready")]
    [InlineData(ReadinessVerdict.Undecided, "◇ undecided")]
    [InlineData(ReadinessVerdict.Over, "□ over")]
    public void A_verdict_is_a_shape_and_a_word(ReadinessVerdict verdict, string text) =>
        Assert.Equal(text, Render<VerdictWord>(p => p.Add(v => v.Verdict, verdict)).Find("span").TextContent);

    [Fact]
    public void Marks_of_a_drawing_are_chosen_by_mouse_and_keyboard_and_say_what_they_are()
    {
        var chosen = new List<string>();
        var drawing = new Drawing(100, 50, "Two stations", [new Mark(Role.Ready, 10, 10, 4, MarkForm.Disc, "A", "Station A: ready"), new Mark(Role.Stop, 20, 10, 4, MarkForm.Square, "B", "Station B: not ready")]);

        var view = Render<DrawingView>(p => p.Add(v => v.Drawing, drawing).Add(v => v.OnMark, key => chosen.Add(key)).Add(v => v.Chosen, "B"));
        view.FindAll("g.mark")[0].Click();
        view.FindAll("g.mark")[1].KeyDown("Enter");
        view.FindAll("g.mark")[0].KeyDown("x");

        Assert.Equal(["A", "B"], chosen);
        Assert.Equal(["Station A: ready", "Station B: not ready"], view.FindAll("g.mark").Select(m => m.GetAttribute("aria-label")));
        Assert.All(view.FindAll("g.mark"), m => Assert.Equal(("button", "0"), (m.GetAttribute("role"), m.GetAttribute("tabindex"))));
        Assert.Contains("chosen", view.FindAll("g.mark")[1].ClassList);
        Assert.Equal("img", Render<DrawingView>(p => p.Add(v => v.Drawing, drawing)).Find("g.mark").GetAttribute("role"));
    }

    [Fact]
    public void Findings_of_a_campaign_become_verdicts_of_its_devices()
    {
        Finding Of(string device, Gravity gravity, string rule = "due") => new(rule, gravity, device, device, null, default, "", [], Clearing.Swap, default, false);
        var report = new ReadinessReport("C", "C", default, default, default, "", ReadinessVerdict.NotReady, [], [Of("A", Gravity.Risks), Of("A", Gravity.Stops), Of("B", Gravity.Note), Of("N", Gravity.Risks, "newer-facts")], 0, 0, 0, 0, new(0, 0, 0, 0, 0, 0));

        var verdicts = DeviceVerdicts.Of(Live.Now, report);

        Assert.Equal((ReadinessVerdict.NotReady, ReadinessVerdict.Undecided), (verdicts["A"].Verdict, verdicts["N"].Verdict));
        Assert.False(verdicts.ContainsKey("B"));
    }
}
