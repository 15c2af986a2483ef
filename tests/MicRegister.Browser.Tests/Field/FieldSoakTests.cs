using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests.Field;

/// <summary>Three phones that say five hundred things each over a network that loses answers, while their pages are closed and opened.</summary>
public sealed class FieldSoakTests
{
    private const int Facts = 500;
    private const int Round = 125;

    [Fact]
    public async Task What_three_phones_said_is_there_once_each()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(2));
        var phones = new List<FieldPhone>();
        var beginnings = new List<Task>();
        var (sent, lost) = (0, 0);
        for (var i = 0; i < 3; i++)
        {
            var (random, sendings) = (new Random(8472 + i), 0);
            var begun = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            beginnings.Add(begun.Task);
            var phone = await FieldPhone.Open(desk);
            await phone.Installed();
            await phone.Context.RouteAsync("**/api/field/facts", async route =>
            {
                int fate;
                // However quick the machine: the first answer is lost, the second sending never gets there, the third one does.
                lock (random) fate = ++sendings switch { 1 => 1, 2 => 0, 3 => 2, _ => random.Next(3) };
                Interlocked.Increment(ref sent);
                if (sendings >= 3) begun.TrySetResult();
                if (fate == 2)
                {
                    await route.ContinueAsync();
                    return;
                }
                // Half of what fails was stored: its answer is lost. The other half never got there.
                Interlocked.Increment(ref lost);
                if (fate == 1) await route.FetchAsync();
                await route.AbortAsync();
            });
            phones.Add(phone);
        }

        await Task.WhenAll(phones.Select(Speak));
        await Task.WhenAll(beginnings).WaitAsync(TimeSpan.FromMilliseconds(Patience.SendingMs), TestContext.Current.CancellationToken);

        // The network holds at last; what was sent in doubt is sent again.
        foreach (var phone in phones)
        {
            await phone.Context.UnrouteAllAsync(new() { Behavior = UnrouteBehavior.IgnoreErrors });
            await phone.Page.EvaluateAsync("async () => { const { flush } = await import('/field/sync.js'); await flush(); }");
            await phone.AllSent();
        }
        var register = desk.Live.Now;
        var said = register.Facts(Subject.Campaign(HeathCampaign.Id)).Where(s => register.IsOfKind(s, "weather-noted")).Select(register.Source.Read).ToList();
        Assert.Equal(3 * Facts, said.Count);
        Assert.Equal(3 * Facts, said.Select(f => f.Id).Distinct().Count());
        // Each phone's facts are all there, each with a counter of its own.
        Assert.All(said.GroupBy(f => f.Client), g =>
        {
            Assert.Equal(Enumerable.Range(1, Facts).Select(n => (long)n), g.Select(f => f.Counter).Order());
            Assert.Equal(Enumerable.Range(0, Facts), g.Select(f => (int)((WeatherNoted)f.Body).WindMs!.Value).Order());
        });
        Assert.True(lost > 5 && sent > lost, $"{sent} sendings, {lost} of them lost");

        async Task Speak(FieldPhone phone)
        {
            for (var from = 0; from < Facts; from += Round)
            {
                await phone.Page.EvaluateAsync("""
                    async ([from, count]) => {
                      const { say, phone } = await import('/field/phone.js');
                      while (!phone.view) await new Promise(done => setTimeout(done, 50));
                      for (let i = from; i < from + count; i++)
                        await say([{ kind: 'weather-noted', subjects: ['campaign:' + phone.view.campaign.id], body: { windMs: i } }]);
                    }
                    """, new[] { from, Round });
                // Closed in the middle of whatever it was sending.
                await phone.Page.CloseAsync();
                await phone.Reopen();
                await Expect(phone.Page.GetByRole(AriaRole.Link, new() { Name = "Lay out" })).ToBeVisibleAsync();
            }
        }
    }
}
