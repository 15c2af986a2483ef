using Bunit;
using MicRegister.Server.Pages.Shell;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace MicRegister.Server.Tests.Pages;

/// <summary>What takes longer than a moment is said, and follows when it is there.</summary>
public sealed class WaitingTests : PageContext
{
    [Fact]
    public void What_is_quick_is_there_at_once()
    {
        var page = Render<Slow>(p => p.Add(x => x.Answer, () => "done"));

        Assert.Equal("done", page.Markup);
    }

    [Fact]
    public async Task What_is_slow_is_said_and_follows_when_it_is_there()
    {
        using var open = new ManualResetEventSlim();
        string Answer()
        {
            open.Wait(Xunit.TestContext.Current.CancellationToken);
            return "done";
        }
        var render = Task.Run(() => Render<Slow>(p => p.Add(x => x.Answer, Answer)));
        while (!render.IsCompleted)
        {
            Tick(); // a moment passes
            await Task.Delay(5, Xunit.TestContext.Current.CancellationToken);
        }
        var page = await render;
        Assert.Equal("the answer", page.Markup);

        open.Set();

        page.WaitForAssertion(() => Assert.Equal("done", page.Markup));
    }

    [Fact]
    public void What_goes_wrong_is_no_wait() =>
        Assert.Equal("broken", Assert.Throws<InvalidOperationException>(
            () => Render<Slow>(p => p.Add(x => x.Answer, () => throw new InvalidOperationException("broken")))).Message);

    [Fact]
    public async Task An_older_answer_never_takes_the_place_of_a_newer_one()
    {
        using var first = new ManualResetEventSlim();
        var asked = 0;
        string Answer()
        {
            if (Interlocked.Increment(ref asked) > 1) return "second";
            first.Wait(Xunit.TestContext.Current.CancellationToken);
            return "first";
        }
        var render = Task.Run(() => Render<Slow>(p => p.Add(x => x.Answer, Answer)));
        while (!render.IsCompleted)
        {
            Tick();
            await Task.Delay(5, Xunit.TestContext.Current.CancellationToken);
        }
        var page = await render;

        page.Render(p => p.Add(x => x.Answer, Answer));
        page.WaitForAssertion(() => Assert.Equal("second", page.Markup));
        first.Set();
        await Task.Delay(50, Xunit.TestContext.Current.CancellationToken);

        Assert.Equal("second", page.Markup);
    }

    /// <summary>A page that works something out.</summary>
    private sealed class Slow : RegisterPage
    {
        private string? _answer;

        [Parameter] public Func<string> Answer { get; set; } = () => "";

        protected override void Load()
        {
            // Only with its parameters.
        }

        protected override void OnParametersSet() => WorkOut("the answer", Answer, a => _answer = a);

        protected override void BuildRenderTree(RenderTreeBuilder builder) => builder.AddContent(0, Waiting ?? _answer);
    }
}
