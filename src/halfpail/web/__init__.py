"""The pages in the browser: server-rendered, whole without JavaScript, better with it."""
